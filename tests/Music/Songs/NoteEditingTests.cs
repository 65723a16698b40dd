using CsCheck;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>One note put into a bar or taken away; what is expected is the song file's grammar (docs/song-file.md), by hand.</summary>
public class NoteEditingTests
{
    private const string Tab = """
        title  T
        shape  G   320003
        pattern Roll
          G3   | . * . * |
          bass | * . . . |
        section A
        chords | G | G | G | G |
        pick                        ; by the window
          E4   | 0    .   3  .  |
          B3   | .    1?  .  2.h3  |  ~heard 60%
        pick Roll from 3
        section B like A
        harp   | +4 . -4&-5 . | . . . . | . . . . | . . . . |

        """;

    private static readonly SongDocument Song = SongText.Parse(Tab, "t.hark");

    [Fact]
    public void ANoteGoesIntoItsCellAndTheColumnsStay() => Assert.Equal(
        Tab.Replace("| 0    .   3  .  |", "| 0    h12 3  .  |"),
        Song.WithPicked(1, Beats.Whole(1), new(5, 12, Attack.HammeredOn)).Text);

    [Fact]
    public void ACellIsSplitWhereTheNoteStartsInIt() => Assert.Equal(
        Tab.Replace("| 0    .   3  .  |", "| 0    .   3,5 .  |"),
        Song.WithPicked(1, Beats.Fraction(5, 2), new(5, 5)).Text);

    [Fact]
    public void ANoteOfAHeardLineIsNotedAsDecided() => Assert.Equal(
        Tab.Replace("1?  .  2.h3  |  ~heard 60%", "3   .  2.h3  |  ~heard 60%  ~bar 1 beat 2 decided"),
        Song.WithPicked(1, Beats.Whole(1), new(4, 3)).Text);

    [Fact]
    public void ANoteIsTakenOutOfItsCellAndTheOneBeforeRingsOn() => Assert.Equal(
        Tab.Replace("2.h3  |", "2     |"),
        Song.WithNothing(new(SongPart.Pick, 1, Beats.Fraction(11, 3), 4)).Text);

    [Fact]
    public void SignsThatRunTogetherComeApartWhereOneChanges() => Assert.Equal(
        Tab.Replace("2.h3  |  ~heard 60%", "2,.,p0 |  ~heard 60%  ~bar 1 beat 4+2/3 decided"),
        Song.WithNote(new(SongPart.Pick, 1, Beats.Fraction(11, 3), 4), "p0").Text);

    [Theory]
    [InlineData("3 5")]
    [InlineData("3|")]
    [InlineData("3;")]
    [InlineData("~heard")]
    [InlineData("")]
    public void WhatIsNoSingleSignIsRefused(string written) =>
        Assert.Throws<ArgumentException>(() => Song.WithNote(new(SongPart.Pick, 1, Beats.Zero, 0), written));

    [Fact]
    public void AStringThatTheBlockLeftOutGetsItsLine() => Assert.Equal(
        Tab.Replace("|  ~heard 60%\n", "|  ~heard 60%\n  D3   | . . 0 . |\n"),
        Song.WithPicked(1, Beats.Whole(2), new(2, 0)).Text);

    [Fact]
    public void ABarBehindABlockMakesItLonger()
    {
        var edited = Song.WithPicked(2, Beats.Whole(3), new(5, 7) { LetsRing = true });
        Assert.Equal(Tab.Replace("3  .  |\n", "3  .  | . . . 7ring |\n").Replace("2.h3  |  ~", "2.h3  | . . . . |  ~"), edited.Text);
        Assert.Equal("7ring", Picked(edited, 2));
    }

    [Fact]
    public void ABarOfAPatternIsWrittenOutAndThePatternGoesOnAround()
    {
        var edited = Song.WithPicked(3, Beats.Whole(2), new(5, 3));
        Assert.Equal(("G3:0 G3:0 E2:3", "G3:0 E4:3 G3:0 E2:3"), (Strings(edited, 4), Strings(edited, 3)));
        Assert.EndsWith("pick Roll from 3\npick from 3\n  E4        | . . 3 . |\n  B3        | . . . . |\n  G3        | . * . * |\n"
            + "  D3        | . . . . |\n  A2        | . . . . |\n  E2        | . . . . |\n  bass      | * . . . |\n", edited.Text.Split("section B")[0]);
        Assert.Equal("G3:0 G3:0", Strings(Song.WithNothing(new(SongPart.Pick, 4, Beats.Zero, 0)), 4));
    }

    [Fact]
    public void ASectionLikeAnotherGetsABlockOfItsOwn()
    {
        var edited = Song.WithNothing(new(SongPart.Pick, 5, Beats.Zero, 5));
        Assert.StartsWith(Tab, edited.Text);
        Assert.Equal(Song.Song!.Sections[0], edited.Song!.Sections[0]);
        Assert.Equal(Picked(Song, 5)[2..], Picked(edited, 5));
    }

    [Fact]
    public void BreathGoesInTheSameManner()
    {
        Assert.Equal(Tab.Replace("+4 . -4&-5 .", "+4 . -3'   ."), Song.WithBreath(5, Beats.Whole(2), HarpNote.Parse("-3'")).Text);
        Assert.Equal(Tab.Replace("+4 . -4&-5 .", "+4 _ -4&-5 ."), Song.WithSilence(new(SongPart.Harp, 5, Beats.Whole(1))).Text);
    }

    /// <summary>The file names what the hand would play without the capo: a sounding E4 under a capo at 2 is its D4.</summary>
    [Fact]
    public void ANoteOfTheTuneIsNamedAsTheFileNames()
    {
        const string Hand = "title T\ncapo 2\nnames hand\nkey D major\nsection A\nchords | D |\n";
        var edited = SongText.Parse(Hand, "t").WithTune(1, Beats.Whole(1), TuneNote.Parse("sE4~"));
        Assert.Equal(Hand + "tune       | . sD4~ . . |\n", edited.Text);
        Assert.Equal("sE4~", edited.Song!.Bars.Single().Tune.Single().Value.ToString());
    }

    [Fact]
    public void APlaceThatABarDoesNotHaveIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Song.WithPicked(1, Beats.Whole(4), new(0, 0)));

    /// <summary>Whatever the song and the place: that note stands there, decided, and every other claim of the song up to the section's end stays.</summary>
    [Fact]
    public void AnyNoteOfAnySong() => Gen.Select(SongGen.Songs, Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[0, 5], PickedGen.Notes, Gen.Bool)
        .Sample((song, which, sixth, stringIndex, note, puts) =>
    {
        song = SongText.Parse(SongText.Write(song), "t").Song!;
        if (!song.Bars.Any())
            return;
        var document = SongText.Parse(SongText.Write(song), "t");
        var bar = song.Bars.ElementAt(which % song.Bars.Count());
        var at = Beats.Fraction(sixth % (6 * bar.Meter.BeatsPerBar), 6);
        var edited = puts ? document.WithPicked(bar.Number, at, note with { StringIndex = stringIndex })
            : document.WithNothing(new(SongPart.Pick, bar.Number, at, stringIndex));

        Assert.True(edited.Song is not null, edited.Text);
        Assert.Equal(song.Bars.Select(b => b with { Picked = [] }), edited.Song.Bars.Select(b => b with { Picked = [] }));
        var last = song.Sections.First(s => s.Bars.Contains(bar)).Bars[^1].Number;
        foreach (var (old, now) in song.Bars.Zip(edited.Song.Bars).Where(b => b.First.Number <= last))
        {
            var kept = old.Picked.Where(p => old != bar || p.Start != at || p.Value.StringIndex != stringIndex).Select(Told);
            var expected = old == bar && puts ? kept.Append((at, note with { StringIndex = stringIndex }, Standing.Decided)) : kept;
            Assert.True(expected.OrderBy(p => p.Item1).ThenBy(p => p.Item2.StringIndex).SequenceEqual(now.Picked.Select(Told)),
                $"bar {old.Number}\n{edited.Text}");
        }
    }, iter: 400);

    private static (Beats, PickedNote, Standing) Told(Claim<PickedNote> claim) => (claim.Start, claim.Value, claim.Standing);

    private static string Picked(SongDocument document, int bar) =>
        string.Join(' ', document.Song!.Bars.ElementAt(bar - 1).Picked.Select(p => $"{p.Value.Fret}{(p.Value.LetsRing ? "ring" : "")}"));

    private static string Strings(SongDocument document, int bar) => string.Join(' ', document.Song!.Bars.ElementAt(bar - 1).Picked
        .OrderByDescending(p => p.Value.StringIndex is 0 ? -1 : 0).ThenBy(p => p.Start)
        .Select(p => $"{document.Song.Tuning.Value.Strings[p.Value.StringIndex]}:{p.Value.Fret}"));
}
