using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Rhythm;

/// <summary>Expected by arithmetic: bars of 2 s at 120 beats a minute in 4/4.</summary>
public class TappedBarsTests
{
    private const string Head = "title Made Up\ntempo 120\n";
    private static readonly string SixteenBars = $"{Head}section A\nchords |{string.Concat(Enumerable.Repeat(" C |", 16))}\n";

    [Fact]
    public void ASteadyStretchTakesTwoAnchors() =>
        Assert.Equal([(1, 3.0), (17, 35.0)], Anchors(SixteenBars, Enumerable.Range(1, 17).Select(bar => (3 + 2.0 * (bar - 1), bar, 0))));

    [Fact]
    public void AChangeOfTempoIsAnchoredWhereItHappens() =>
        Assert.Equal([(1, 0.0), (9, 16.0), (17, 40.0)],
            Anchors(SixteenBars, Enumerable.Range(1, 17).Select(bar => (bar <= 9 ? 2.0 * (bar - 1) : 16 + 3.0 * (bar - 9), bar, 0))));

    /// <summary>Of n points a straight line follows its first by (4n − 2) / (n (n + 1)): textbook least squares, for 17 points 0.216 of the slip.</summary>
    [Fact]
    public void ASlipOfTheHandMovesABarByAFifthOfIt()
    {
        var anchors = Anchors(SixteenBars, Enumerable.Range(1, 17).Select(bar => (3 + 2.0 * (bar - 1) + (bar == 1 ? 0.035 : 0), bar, 0)));
        Assert.Equal(3 + 0.035 * 66 / 306, anchors[0].At, 0.0006);
    }

    [Fact]
    public void BeatsBetweenBarLinesCountToo()
    {
        var taps = Enumerable.Range(0, 9).Select(beat => (1 + 0.5 * beat + (beat % 4 == 0 ? 0 : 0.03), 3 + beat / 4, beat % 4));
        var anchors = Anchors(SixteenBars, taps);
        Assert.All(anchors, a => Assert.InRange(a.At - (1 + 2.0 * (a.Bar - 3)), 0.005, 0.03));
    }

    [Fact]
    public void EverySectionsStartIsTied()
    {
        var song = Head + "section A\nchords | C | C |\nsection B\nchords | C | C |\n";
        Assert.Equal([(1, 0.0), (3, 4.0), (5, 8.0)], Anchors(song, Enumerable.Range(1, 5).Select(bar => (2.0 * (bar - 1), bar, 0))));
    }

    [Fact]
    public void TheFileKeepsItsCommentsAndTheAnchorsAround()
    {
        var text = $"{Head}section A ; first\nanchors 1 = 0:00.9   3 = 0:05.1   4 = 0:07 ~heard 80% ; by ear\nanchors 9 = 0:17\nchords "
            + $"|{string.Concat(Enumerable.Repeat(" C |", 16))}\n";
        var document = SongText.Parse(text, "made-up.hark");
        var tied = TappedBars.Of(document.Song!, [Tap(5, 3), Tap(7.2, 4), Tap(9.2, 5)]).Onto(document);
        Assert.Equal(text.Replace("3 = 0:05.1   4 = 0:07 ~heard 80% ;",
            "3 = 0:05.000   4 = 0:07.200   5 = 0:09.200 ~heard 80%  ~bar 3 decided  ~bar 4 decided  ~bar 5 decided ;"), tied.Text);
    }

    [Fact]
    public void WholeSectionsTiedAnewArePlainlyDecided()
    {
        var text = $"{Head}section A\nanchors 1 = 0:01   2 = 0:03.1   5 = 0:09 ~heard 80%  ~bar 5 heard 20%\nanchors 16 = 0:31 ; the last\nchords "
            + $"|{string.Concat(Enumerable.Repeat(" C |", 16))}\n";
        var document = SongText.Parse(text, "made-up.hark");
        var tied = TappedBars.Of(document.Song!, Enumerable.Range(1, 17).Select(bar => Tap(2.0 * (bar - 1), bar))).Onto(document);
        Assert.Equal(text.Replace("1 = 0:01   2 = 0:03.1   5 = 0:09 ~heard 80%  ~bar 5 heard 20%", "1 = 0:00.000")
            .Replace("anchors 16 = 0:31 ;", "anchors 17 = 0:32.000 ;"), tied.Text);
    }

    [Theory]
    [InlineData("0:01 |18", "bar 18 isn't in the song, which has bars 1 to 16 (|17 is its end)")]
    [InlineData("0:01 |1\n0:02 |2.5", "bar 2 beat 5 isn't in the song, which has bars 1 to 16 (|17 is its end)")]
    [InlineData("0:01 |2\n0:02 |1", "bar 1 at 0:02.000 doesn't come after bar 2 at 0:01.000")]
    [InlineData("0:01 |1.2", "no bar line is among the beats, and a bar is tied to a time by its line")]
    [InlineData("0:01 |1\n0:02 |3", null)]
    public void WhatCannotBeLaidIsSaid(string lines, string? problem) =>
        Assert.Equal(problem, TappedBars.Problem(SongText.Parse(SixteenBars, "made-up.hark").Song!, TappedTimes.Read(lines.Split('\n'), out _)!.Beats));

    private static List<(int Bar, double At)> Anchors(string text, IEnumerable<(double At, int Bar, int Beat)> taps)
    {
        var tapped = TappedBars.Of(SongText.Parse(text, "made-up.hark").Song!, taps.Select(t => new TappedBeat(Seconds.FromSeconds(t.At), t.Bar, t.Beat)));
        return [.. tapped.Anchors.Select(a => (a.Bar, a.At.Value))];
    }

    private static TappedBeat Tap(double at, int bar) => new(Seconds.FromSeconds(at), bar, 0);
}
