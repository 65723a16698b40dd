using CsCheck;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs;

/// <summary>An edit changes the line of the thing edited and nothing else.</summary>
public class EditingTests
{
    private static readonly SongDocument Ferry = SongText.Parse(Examples.Ferry, "ferry.hark");
    private static readonly Standing Mended = Standing.Corrected(new(2026, 12, 1), "Moss Tarn", "heard it live");

    [Fact]
    public void AFactKeepsItsColumnStandingAndComment() =>
        AssertChanged(Ferry.WithFact(SongFact.Tempo, "97.5"), "tempo      96", "tempo      97.5");

    [Fact]
    public void AFactMayChangeItsStandingToo() => AssertChanged(
        Ferry.WithFact(SongFact.Pitch, "A4 = 441.9 Hz", Mended),
        "pitch      A4 = 442.3 Hz                 ~heard 97%",
        "pitch      A4 = 441.9 Hz                 ~corrected 2026-12-01 Moss Tarn: heard it live");

    [Fact]
    public void ADecisionTakesTheStandingAway() => AssertChanged(
        Ferry.WithFactStanding(SongFact.Pitch, Standing.Decided), "pitch      A4 = 442.3 Hz                 ~heard 97%", "pitch      A4 = 442.3 Hz");

    [Fact]
    public void AFactThatWasNotGivenGetsALineInItsPlace()
    {
        var document = SongText.Parse("; low tide\ntitle T\nkey D major\n", "t").WithFact(SongFact.Tempo, "96");
        Assert.Equal("; low tide\ntitle T\ntempo      96\nkey D major\n", document.Text);
        Assert.Equal("title      T; U", SongText.Parse("", "t").WithFact(SongFact.Title, "T; U").Text.Replace("\"", "").TrimEnd());
    }

    [Fact]
    public void ASectionIsNamedAnewAndThoseLikeItFollow()
    {
        const string Text = """
            title T
            section    A 1   ~heard 83%   ; the first
            chords | D | G |
            section    A 2 like A 1  ~heard 80%
            section    B
            chords | A |

            """;

        var named = SongText.Parse(Text, "t").WithSectionName(0, "Verse; one");

        Assert.Equal(Text.Replace("A 1   ~heard 83%", "\"Verse; one\"").Replace("like A 1", "like \"Verse; one\""), named.Text);
        Assert.Equal(["Verse; one", "A 2", "B"], named.Song!.Sections.Select(s => s.Name));
        Assert.Equal(Standing.Decided, named.Song.Sections[0].Standing);
        Assert.Equal("D", named.Song.Sections[1].Bars[0].Chords[0].Value.Name);
    }

    /// <summary>"like" means the last of that name before it, so that the last section here would be like another than it was.</summary>
    [Fact]
    public void ANameThatWouldMakeALaterSectionLikeAnotherIsRefused() => Assert.Throws<ArgumentException>(() => SongText.Parse(
        "title T\nsection V\nchords | D |\nsection W\nchords | G |\nsection X like V\n", "t").WithSectionName(1, "V"));

    [Fact]
    public void StrokesChangeInTheirBarsAndAPatternGoesOnAround()
    {
        const string Text = """
            title T
            section A
            chords | D | G | D | G |
            strum throughout | d . d u |   ; softly  ~heard 70%
            section B
            chords | A | D |
            strum  | d d d d | d?60 . u . |  ~heard 80%

            """;
        var document = SongText.Parse(Text, "t");
        (Beats, Stroke)[] strokes = [(Beats.Zero, Stroke.Down), (Beats.Fraction(3, 2), Stroke.Up), (Beats.Whole(3), Stroke.Muted)];

        var edited = document.WithStrokes(0, [2], strokes).WithStrokes(1, [2], strokes);

        Assert.Equal(Text.Replace("| d?60 . u . |  ~heard 80%", "| d .u . x |  ~heard 80%  ~bar 2 decided")
            .Replace("softly  ~heard 70%\n", "softly  ~heard 70%\nstrum from 2 | d .u . x |\n"), edited.Text);
        Assert.Equal(["0 Down, 2 Down, 3 Up", "0 Down, 3/2 Up, 3 Muted", "0 Down, 2 Down, 3 Up"],
            edited.Song!.Bars.Take(3).Select(b => string.Join(", ", b.Strums.Select(s => $"{s.Start} {s.Value}"))));
        Assert.All(edited.Song.Bars.Where(b => b.Number is 2 or 6).SelectMany(b => b.Strums), s => Assert.Equal(Standing.Decided, s.Standing));
    }

    [Fact]
    public void StrokesThatDoNotFitTheBarAreRefused() => Assert.Throws<ArgumentOutOfRangeException>(
        () => SongText.Parse("title T\nsection A\nchords | D |\n", "t").WithStrokes(0, [1], [(Beats.Whole(4), Stroke.Down)]));

    [Fact]
    public void AShapeIsReplacedOrAdded()
    {
        AssertChanged(Ferry.WithShape("G/D@low", Shape.Parse("020123")), "shape      G/D@low  020120", "shape      G/D@low  020123");
        var added = Ferry.WithShape("A", Shape.Parse("022220"), Standing.Heard(0.5));
        Assert.Equal(Examples.Ferry.Replace("020120", "020120\nshape      A         022220  ~heard 50%"), added.Text);
        Assert.Equal("022220", added.Song!.Bars.ElementAt(1).Chords[2].Value.Shape!.ToString());
    }

    [Fact]
    public void AChordChangesInItsBarAndADecisionIsNotedBehindTheLine() => AssertChanged(
        Ferry.WithChord(3, Beats.Zero, "Bm"),
        "chords     | D . . .     | G,D . A .   | Bm7 . A? .  |   ~heard 84%",
        "chords     | D . . .     | G,D . A .   | Bm . A? .  |   ~heard 84%  ~bar 3 beat 1 decided");

    [Fact]
    public void AChordBetweenTheCellsDividesThem() => AssertChanged(
        Ferry.WithChord(1, Beats.Fraction(5, 2), "Em", Standing.Heard(0.84)),
        "chords     | D . . .     | G,D . A .   | Bm7 . A? .  |   ~heard 84%",
        "chords     | D . .,Em . | G,D . A .   | Bm7 . A? .  |   ~heard 84%");

    [Fact]
    public void AMarkedChordLosesItsMarkWhenDecided()
    {
        var edited = Ferry.WithChordStanding(3, Beats.Whole(2), Mended);
        AssertChanged(edited, "A? .  |   ~heard 84%", "A .  |   ~heard 84%  ~bar 3 beat 3 corrected 2026-12-01 Moss Tarn: heard it live");
        Assert.Equal(Mended, edited.Song!.Bars.ElementAt(2).Chords[1].Standing);
        AssertChanged(edited.WithChordStanding(3, Beats.Whole(2), Standing.Heard(0.84)), "A? .", "A .");
    }

    [Fact]
    public void ATakenOverBarGetsALineOfItsOwn()
    {
        var edited = Ferry.WithChord(4, Beats.Whole(2), "G/D@low");
        Assert.Equal(Examples.Ferry.Replace("like Verse 1", "like Verse 1\nchords from 1 | D?84 . G/D@low . |"), edited.Text);
        Assert.Equal(Ferry.Song!.Sections[0], edited.Song!.Sections[0]);
        Assert.Equal(["A"], edited.Song.Bars.Last().Chords.Select(c => c.Value.Name));
    }

    [Fact]
    public void AnchorsAreSetAddedAndTakenAway()
    {
        const string line = "anchors    1 = 0:02.315   3 = 0:12.402";
        AssertChanged(Ferry.WithAnchor(0, 3, Seconds.FromSeconds(12.5)), line, "anchors    1 = 0:02.315   3 = 0:12.500");
        AssertChanged(Ferry.WithAnchor(0, 2, Seconds.FromSeconds(7)), line, "anchors    1 = 0:02.315   2 = 0:07.000   3 = 0:12.402");
        AssertChanged(Ferry.WithAnchor(0, 4, Seconds.FromSeconds(17), Standing.Heard(0.6)), line, line + "   4 = 0:17.000  ~bar 4 heard 60%");
        AssertChanged(Ferry.WithoutAnchor(0, 1), line, "anchors    3 = 0:12.402");
        AssertChanged(Ferry.WithoutAnchor(0, 3), line, "anchors    1 = 0:02.315");
        Assert.Equal(Examples.Ferry.Replace("like Verse 1", "like Verse 1\nanchors    1 = 0:20.000"), Ferry.WithAnchor(1, 1, Seconds.FromSeconds(20)).Text);
    }

    [Fact]
    public void StandingsOfPartsAndSections()
    {
        AssertChanged(Ferry.WithPartStanding(0, SongPart.Chords, Standing.Decided), " |   ~heard 84%", " |");
        AssertChanged(Ferry.WithPartStanding(0, SongPart.Sung, Standing.Heard(null)), "x . . .     |", "x . . .     |  ~heard");
        AssertChanged(Ferry.WithSectionStanding(0, Standing.Heard(0.5)), "section    Verse 1", "section    Verse 1  ~heard 50%");
    }

    [Fact]
    public void SectionsAreAddedAtTheEnd()
    {
        Assert.Equal(Examples.Ferry + "\n\nsection    Coda like Verse 1\n", Ferry.WithSection("Coda", like: "Verse 1").Text);
        Assert.Equal(2, Ferry.WithSection("Coda", bars: 2).Song!.Sections[2].Bars.Length);
    }

    [Fact]
    public void CrLfStays()
    {
        var crlf = SongText.Parse(Examples.Ferry.ReplaceLineEndings("\r\n"), "f").WithAnchor(1, 1, Seconds.FromSeconds(20))
            .WithFact(SongFact.Key, "D mixolydian").WithSection("B");
        Assert.DoesNotContain("\n", crlf.Text.Replace("\r\n", ""));
    }

    [Fact]
    public void WhatIsNotThereCannotBeEdited()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Ferry.WithChord(7, Beats.Zero, "D"));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ferry.WithChord(1, Beats.Whole(4), "D"));
        Assert.Throws<ArgumentException>(() => Ferry.WithChordStanding(1, Beats.Whole(1), Standing.Decided));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ferry.WithAnchor(2, 1, Seconds.FromSeconds(1)));
        Assert.Throws<ArgumentException>(() => Ferry.WithFact(SongFact.Title, "a\nb"));
    }

    /// <summary>Whatever the song: the chord stands at its beat with its standing, what came before it in the bar stays, and so does every other
    /// part.</summary>
    [Fact]
    public void AnyChordCanBeSetInAnySong() =>
        Gen.Select(SongGen.Songs, Gen.Int[0, 1000], Gen.Int[0, 11], SongGen.OneOf("Em", "G/D@low", "N.C."),
            SongGen.OneOf(Standing.Decided, Mended, Standing.Heard(0.3))).Sample((song, at, sixth, name, standing) =>
        {
            if (!song.Bars.Any())
                return;
            var bar = song.Bars.ElementAt(at % song.Bars.Count());
            var beat = Beats.Fraction(sixth, 6);
            var document = SongText.Parse(SongText.Write(song), "t").WithChord(bar.Number, beat, name, standing);
            Assert.True(document.Song is not null, document.Text);
            var edited = document.Song;
            var now = edited.Bars.ElementAt(bar.Number - 1);
            Assert.True(now.Chords.Any(c => c.Start == beat), $"{bar.Number} {beat} {name}\n{document.Text}");
            var set = now.Chords.Single(c => c.Start == beat);
            Assert.Equal((name, standing), (set.Value.Name, set.Standing));
            Assert.Equal(bar.Chords.Where(c => c.Start < beat).Select(c => (c.Start, c.Value, c.Standing)), now.Chords.Where(c => c.Start < beat)
                .Select(c => (c.Start, c.Value, c.Standing)));
            Assert.Equal(song.Bars.Select(b => b with { Chords = [] }), edited.Bars.Select(b => b with { Chords = [] }));
        }, iter: 300);

    private static void AssertChanged(SongDocument edited, string before, string after)
    {
        Assert.DoesNotContain(edited.Diagnostics, d => d.Severity == Severity.Error);
        var expected = after.Contains(before) || Examples.Ferry.Contains(before) ? Examples.Ferry.Replace(before, after) : Examples.Ferry;
        Assert.Equal(expected, edited.Text);
    }
}
