using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Tests.Desk;

/// <summary>Taps on a song of four bars of two seconds, by arithmetic.</summary>
public class TappedRunTests
{
    private static readonly SongDocument Document = SongText.Parse(
        "title T\ntempo 120\nsection A\nanchors 1 = 0:01.000\nchords | G | C | D | G |\n", "t");

    [Fact]
    public void WordsFallIntoSyllablesAtTheirHyphens() =>
        Assert.Equal(["Down", "to", "the", "fer-", "ry,", "a-", "a-", "way"], TappedRun.Syllables("Down to\nthe fer-ry,  a-a-way - "));

    /// <summary>The second bar was 0:03; it is tapped at 0:03.2, the third at 0:05.4, the fourth at 0:07.6: bars of 2.2 s.</summary>
    [Fact]
    public void TappedBarLinesTieTheirBars()
    {
        var song = Laid(TapKind.BarLines, [3.2, 5.4, 7.6]);
        var clock = new SongClock(song);
        Assert.Equal([1, 3.2, 5.4, 7.6], new[] { 1, 2, 3, 4 }.Select(b => Math.Round(clock.TimeOf(b).Value, 3)));
    }

    [Fact]
    public void WhatAllTapsAreLateByIsTakenOff() =>
        Assert.Equal(3.1, new SongClock(Laid(TapKind.BarLines, [3.2, 5.4], late: 0.1)).TimeOf(2).Value, 3);

    /// <summary>From the third beat of bar 1, at 0:02, the beats come every 0.6 s in place of every 0.5 s: bar 2 starts at 0:03.2.</summary>
    [Fact]
    public void TappedBeatsGoOnOverTheBarLine() =>
        Assert.Equal(3.2, new SongClock(Laid(TapKind.Beats, [2.0, 2.6, 3.2, 3.8, 4.4, 5.0, 5.6])).TimeOf(2).Value, 2);

    [Fact]
    public void SyllablesFallOnTheBarsAndTheRestIsRhythm()
    {
        var bar = Laid(TapKind.Syllables, [3.0, 3.5, 4.0, 4.5], "fer-ry goes").Bars.ElementAt(1);
        Assert.Equal(["fer-", "ry", "goes", "x"], bar.Sung.Select(s => s.Value));
        Assert.Equal([0.0, 1, 2, 3], bar.Sung.Select(s => s.Start.Value));
    }

    [Fact]
    public void NothingTappedIsSaid() => Assert.NotNull(new TappedRun(TapKind.Beats, [], [], default).Problem(Document.Song!));

    private static Song Laid(TapKind kind, double[] times, string words = "", double late = 0)
    {
        var run = new TappedRun(kind, [.. times.Select(Seconds.FromSeconds)], TappedRun.Syllables(words), Seconds.FromSeconds(late));
        Assert.Null(run.Problem(Document.Song!));
        return run.Onto(Document).Song!;
    }
}
