using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Songs.Rebarring;

/// <summary>Bars drawn anew; where each beat falls is counted by hand.</summary>
public class RebarTests
{
    private const string Draft = """
        title Low Lamp   ; from the kitchen
        meter 4/4  ~heard 94%
        tempo 177  ~heard 75%

        ; how it begins
        section Verse 1
        anchors 1 = 0:00.500   2 = 0:01.900   3 = 0:03.300
        chords | D . . . | D . . . | G . . . | A . A7 . | ~heard 80% ~bar 4 beat 3 decided
        ; the left hand rests
        strum  | d . du . | d . du . | d . du . | d . du . |   ; light
        sung   | Low . lamp . | _ . . . | on,the . sea . | _ . . . |
        section Verse 2 like Verse 1
        sung from 3 | in,my . hand . |
        """;

    private static string Lines(string text, TempoLevel level, string? meter = null, int later = 0) =>
        SongRebarring.Of(SongText.Parse(text, "t.hark"), new(level, meter is null ? null : Meter.Parse(meter), Beats.Whole(later))).Text;

    private static TempoLevel Half => TempoLevel.Named[0].Level;

    private static TempoLevel Third => TempoLevel.Named[2].Level;

    [Fact]
    public void HalfPutsTwoBarsInOneAndKeepsWhoSaidWhat() => Assert.Equal(
        """
        title Low Lamp   ; from the kitchen
        meter 4/4  ~heard 94%
        tempo 88.5

        ; how it begins
        section Verse 1
        anchors    1 = 0:00.500   1 beat 3 = 0:01.900   2 = 0:03.300
        ; the left hand rests
        chords     | D . . .              | G . A A7             |  ~heard 80% ~bar 2 beat 4 decided
        strum      | d . du . d . du .    | d . du . d . du .    |  ; light
        sung       | Low . lamp . _ . . . | on,the . sea . _ . . . |
        """.Split('\n')[..8], Lines(Draft, Half).Split('\n')[..8]);

    [Fact]
    public void ASectionLikeAnotherStaysSo()
    {
        var text = Lines(Draft, Half);
        Assert.Contains("section Verse 2 like Verse 1\nsung from 2 | in,my . hand . _ . . . |", text);
        Assert.Equal(4, SongText.Parse(text, "t").Song!.Bars.Count());
    }

    [Fact]
    public void AThirdOfThreeFourIsTwelveEightAndTripleLeadsBack()
    {
        var waltz = "title T\nmeter 3/4\ntempo 204\nsection A\nchords | E7 . . | . . . | A7 . . | . . . |\n";
        var slow = Lines(waltz, Third);
        Assert.Equal("title T\nmeter 12/8\ntempo 68\nsection A\nchords     | E7 . A7 . |\n", slow);
        Assert.Equal(SongText.Parse(waltz, "t").Song, SongText.Parse(Lines(slow, TempoLevel.Named[3].Level), "t").Song);
    }

    [Fact]
    public void ABorderThatAPersonDecidedStaysAndOneThatWasHeardMoves()
    {
        var song = "title T\ntempo 180\nsection A\nchords | C . . . | C . . . | C . . . |\nsection B\nchords | F . . . | F . . . |\n";
        var decided = SongRebarring.Of(SongText.Parse(song, "t"), new(Half));
        Assert.Contains("A: its bar 2 is 2/4.", decided.Remarks);
        Assert.Equal([4, 2, 4], SongText.Parse(decided.Text, "t").Song!.Bars.Select(b => b.Meter.BeatsPerBar));
        var heard = SongRebarring.Of(SongText.Parse(song.Replace("section B", "section B ~heard 60%"), "t"), new(Half));
        Assert.Contains("B starts 2 beats earlier, at the nearest bar line.", heard.Remarks);
        Assert.Equal([4, 4, 4], SongText.Parse(heard.Text, "t").Song!.Bars.Select(b => b.Meter.BeatsPerBar));
    }

    [Fact]
    public void BarsABeatLaterBeginWithAPickUp()
    {
        var song = "title T\ntempo 60\nsection A\nanchors 1 = 0:10\nchords | C F . . | . G . . |\n";
        Assert.Equal("title T\ntempo 60\nsection A\nanchors    1 beat 4 = 0:10.000\nchords     | . . . C | F . . . | G . . _ |\n",
            Lines(song, TempoLevel.Same, later: 1));
    }

    [Fact]
    public void ThreeFourHeardForFourFourIsCountedInFours() => Assert.Equal(
        "title T\nmeter 4/4\nsection A\nchords     | C . . F | . . G . | . _ . . |\n".Replace("| . _ . . |", "| . _ . . |"),
        Lines("title T\nmeter 3/4\nsection A ~heard 40%\nchords | C . . | F . . | G . . |\n", TempoLevel.Same, "4/4")
            .Replace("section A ~heard 40%", "section A"));

    [Theory]
    [InlineData("title T\ntempo 30\nsection A\nchords | C |\n", 0, "tempo 30 becomes 15")]
    [InlineData("title T\nsection A\n", 0, "no bars yet")]
    [InlineData("title T\nsection A\nchords | C |\n", 9, "less than 8 later or earlier")]
    public void WhatCanNotBeBarredSoIsSaid(string text, int later, string why) =>
        Assert.Contains(why, Assert.Throws<RebarException>(() => Lines(text, Half, later: later)).Message);

    [Fact]
    public void AnAnchorAtABeatTiesTheClockThere()
    {
        var song = SongText.Parse("title T\ntempo 60\nsection A\nanchors 1 = 0:10   1 beat 3 = 0:13   2 = 0:14\nchords | C | C |\n", "t").Song!;
        Assert.Equal(11.5, new SongClock(song).TimeOf(1, Beats.Whole(1)).Value, 9);
        Assert.Equal(13.5, new SongClock(song).TimeOf(1, Beats.Whole(3)).Value, 9);
        Assert.Equal(song, SongText.Parse(SongText.Write(song), "t").Song);
    }

    [Theory]
    [InlineData("anchors 1 beat 5 = 0:10", DiagnosticCode.AnchorOutside)]
    [InlineData("anchors 2 beat 2 = 0:10", DiagnosticCode.AnchorOutside)]
    [InlineData("anchors 1 beat 3 = 0:10 1 beat 2 = 0:11", DiagnosticCode.AnchorNotRising)]
    [InlineData("anchors 1 beat x = 0:10", DiagnosticCode.BadAnchor)]
    public void AnAnchorOffItsBarIsSaid(string line, DiagnosticCode code) =>
        Assert.Contains(SongText.Parse($"title T\nsection A\n{line}\nchords | C |\n", "t").Diagnostics, d => d.Code == code);

    [Fact]
    public void TheBeatNearestToATimeBecomesTheFirstOfABar()
    {
        var song = SongText.Parse("title T\ntempo 60\nsection A\nanchors 1 = 0:10\nchords | C | C |\n", "t");
        Assert.Equal(Beats.Whole(1), SongRebarring.LaterFor(song, TempoLevel.Same, null, Seconds.FromSeconds(11.2)));
        Assert.Equal(Beats.Whole(-1), SongRebarring.LaterFor(song, TempoLevel.Same, null, Seconds.FromSeconds(16.9)));
    }

    /// <summary>Patterns, "*" and the bass line: each note and stroke at its beat, counted by hand, on the fret that its chord's shape has.</summary>
    [Fact]
    public void PatternsComeAlong()
    {
        var text = "title T\ntempo 180\nshape C x32010\nshape G 320003\npattern Roll\n  G3 | . * |\n  bass | * . |\nsection A\nchords | C . . . | G . . . "
            + "|\nstrum throughout | d u |\npick Roll\n";
        var song = SongText.Parse(Lines(text, Half), "t").Song!;
        var bar = song.Bars.Single();
        Assert.Equal(["0 Down", "1 Up", "2 Down", "3 Up"], bar.Strums.Select(s => $"{s.Start} {s.Value}"));
        Assert.Equal(["0 string 1 fret 3", "1 string 3 fret 0", "2 string 0 fret 3", "3 string 3 fret 0"],
            bar.Picked.Select(p => $"{p.Start} string {p.Value.StringIndex} fret {p.Value.Fret}"));
    }

    [Fact]
    public void TyingAStretchAnewTakesAnchorsAtItsBeatsAway()
    {
        var song = SongText.Parse("title T\ntempo 60\nsection A\nanchors 1 = 0:10   1 beat 3 = 0:13   2 = 0:14\nchords | C | C |\n", "t");
        Assert.Equal([(1, 11.0), (2, 15.0)],
            song.WithAnchors(1, 2, [(1, Seconds.FromSeconds(11)), (2, Seconds.FromSeconds(15))]).Song!.Sections[0].Anchors.Select(a => (a.Bar, a.At.Value)));
    }
}
