using Harkbook.Music.Analysis.SecondInstruments;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>Expected values worked by hand at 60 beats a minute, so that a beat is a second.</summary>
public class BreathPlanTests
{
    [Fact]
    public void BlownAndDrawnBarsAreCounted()
    {
        var plan = Of("| +4 . -4 . | +4 . . . | -4 . _ . |");
        Assert.Equal((1.5, 1.0), (plan.BarsOut, plan.BarsIn));
        Assert.Equal([Breath.Blow, Breath.Draw, Breath.Blow, Breath.Draw], plan.Runs.Select(r => r.Breath));
        Assert.Equal([2.0, 2, 4, 2], plan.Runs.Select(r => r.Sounding.Value));
        Assert.Equal(3, plan.Turns);
    }

    [Fact]
    public void NotesOfOneDirectionAreOneRun()
    {
        var run = Assert.Single(Of("| +4 +5 +6 +5 | +4 . . _ |").Runs);
        Assert.Equal((Breath.Blow, 1, 2, 7.0), (run.Breath, run.First.Bar, run.Last.Bar, run.Sounding.Value));
        Assert.Null(run.RestAfter);
    }

    [Fact]
    public void ARestIsWhereThePlayerBreathes()
    {
        var plan = Of("| -4 . . . | -5 . _ . | -4 . . . |");
        Assert.Equal(2, plan.Passages.Length);
        Assert.Equal((1, 2, 6.0, 2.0), (plan.Passages[0].FirstBar, plan.Passages[0].LastBar, plan.Passages[0].In.Value,
            plan.Passages[0].RestAfter!.Value.Value));
        Assert.Empty(plan.TooLong);
        Assert.Equal(0, plan.Turns);
    }

    [Fact]
    public void WhatIsTooLongIsWarnedOf()
    {
        var plan = Of("| -4 . . . | -5 . . . | -4 . . . |");
        Assert.Equal(12, Assert.Single(plan.TooLong).Sounding.Value);
        Assert.Same(plan.Longest, plan.Runs[0]);
    }

    /// <summary>Drawing three beats and blowing one, over and over, fills the lungs though no stretch is long.</summary>
    [Fact]
    public void LungsThatFillAreWarnedOf()
    {
        var plan = Of(string.Concat(Enumerable.Repeat("| -4 . . +4 ", 5)) + "|");
        Assert.Empty(plan.TooLong);
        Assert.Equal(10, Assert.Single(plan.Unbalanced).Net.Value);
        Assert.Empty(Of(string.Concat(Enumerable.Repeat("| -4 . +4 . ", 9)) + "|").Unbalanced);
    }

    [Fact]
    public void ASectionCanBePlannedAlone()
    {
        var plan = BreathPlan.Of(Read("| +4 . . . | -4 . . . |"), bar => bar.Number == 2);
        Assert.Equal((0.0, 1.0), (plan.BarsOut, plan.BarsIn));
    }

    [Fact]
    public void ASongWithoutHarmonicaHasNoBreaths() => Assert.Null(Of("| _ |").Longest);

    private static BreathPlan Of(string bars) => BreathPlan.Of(Read(bars));

    private static Song Read(string bars) => SongText.Parse($"title Far\ntempo 60\nharp C\nsection A\nharp {bars}\n", "far.hark").Song!;
}
