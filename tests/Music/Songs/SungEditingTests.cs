using System.Collections.Immutable;
using CsCheck;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

public class SungEditingTests
{
    private const string Song = "title T\nsection A\nchords | C | C | C | ; plain\nsung | oh . my?40 . | dear . . . | x . . x | ~heard 60%  ~bar 2 beat 1 "
        + "corrected 2026-11-25 Wren: I heard it ; by ear\nsection B like A\n";

    [Fact]
    public void BarsOfTheSectionsOwnLineChangeInPlace() => Assert.Equal(
        Song.Replace("dear . . . | x . . x | ~heard 60%  ~bar 2 beat 1 corrected 2026-11-25 Wren: I heard it ;",
            "no . \"a,b\" . | _ . . . | ~heard 60%  ~bar 2 decided  ~bar 3 decided ;"),
        SongText.Parse(Song, "t").WithSung(0, 2, [[At(0, 2, "no"), At(2, 2, "a,b")], []]).Text);

    [Fact]
    public void ALineGivenAnewWholeIsPlainlyDecided() => Assert.Equal(
        Song.Replace("oh . my?40 . | dear . . . | x . . x | ~heard 60%  ~bar 2 beat 1 corrected 2026-11-25 Wren: I heard it ;",
            "la . . . | . . . . | la . . . | ;").Replace("| . . . . |", "| . |"),
        SongText.Parse(Song, "t").WithSung(0, 1, [[At(0, 8, "la")], [], [At(0, 4, "la")]]).Text);

    [Fact]
    public void BarsTakenOverGetALineOfTheirOwn()
    {
        var edited = SongText.Parse(Song, "t").WithSung(1, 2, [[At(1, 3, "new")]]);
        Assert.Equal(Song + "sung from 2 | . new . . |\n", edited.Text);
        Assert.Equal(SongText.Parse(Song, "t").Song!.Sections[0], edited.Song!.Sections[0]);
    }

    /// <summary>Whatever the song and the stretch: the syllables stand there, decided, and everything else up to the section's end stays.</summary>
    [Fact]
    public void AnyStretchOfAnySong() => Gen.Select(SongGen.Songs, Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[1, 4], Gen.Int[0, 7].Array[0, 3])
        .Sample((song, which, from, count, eighths) =>
    {
        song = SongText.Parse(SongText.Write(song), "t").Song!;
        if (song.Sections.All(s => s.Bars.IsEmpty))
            return;
        var section = Enumerable.Range(0, song.Sections.Length).Where(i => !song.Sections[i].Bars.IsEmpty)
            .ElementAt(which % song.Sections.Count(s => !s.Bars.IsEmpty));
        var bars = song.Sections[section].Bars;
        var first = 1 + from % bars.Length;
        count = Math.Min(count, bars.Length - first + 1);
        var sung = Enumerable.Range(0, count).Select(i => eighths.Distinct().Order().Where(e => Beats.Fraction(e, 2) < bars[first - 1 + i].Meter.BarLength)
            .Select(e => new Claim<string>(Beats.Fraction(e, 2), Beats.Fraction(1, 2), "la" + e, Standing.Decided)).ToImmutableArray()).ToList();

        var edited = SongText.Parse(SongText.Write(song), "t").WithSung(section, first, sung);

        Assert.True(edited.Song is not null, edited.Text);
        Assert.Equal(song.Bars.Select(b => b with { Sung = [] }), edited.Song.Bars.Select(b => b with { Sung = [] }));
        // Later sections may be like this one, and then change with it.
        foreach (var (old, now) in song.Bars.Zip(edited.Song.Bars).Where(b => b.First.Number <= bars[^1].Number))
        {
            var at = old.Number - bars[0].Number - first + 1;
            var expected = at >= 0 && at < count ? sung[at] : old.Sung;
            Assert.True(expected.Select(c => (c.Start, c.Value, c.Standing)).SequenceEqual(now.Sung.Select(c => (c.Start, c.Value, c.Standing))),
                $"bar {old.Number}\n{edited.Text}");
        }
    }, iter: 300);

    private static Claim<string> At(int beat, int length, string text) => new(Beats.Whole(beat), Beats.Whole(length), text, Standing.Decided);
}
