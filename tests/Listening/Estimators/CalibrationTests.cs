using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Tests.Estimators;

public class CalibrationTests
{
    private static readonly Distribution<string> Estimate = new([new("a", 0.9), new("b", 0.06), new("c", 0.04)]);

    [Fact]
    public void TheFirstTakesTheLinesLogOdds()
    {
        // Log odds of 0.9 are ln 9; half of them are ln 3, the odds of 3 to 1.
        var told = new Calibration(0.5, 0).Of(Estimate);
        Assert.Equal(["a", "b", "c"], told.Candidates.Select(c => c.Value));
        Assert.Equal(0.75, told.Confidence, 1e-9);
        Assert.Equal(0.15, told.Candidates[1].Confidence, 1e-9);
        Assert.Equal(0.10, told.Candidates[2].Confidence, 1e-9);
    }

    [Fact]
    public void TheFirstStaysFirstAndTheSumTheSame()
    {
        var told = new Calibration(1, -6).Of(new Distribution<string>([new("a", 0.5), new("b", 0.3), new("c", 0.2)]));
        Assert.Equal("a", told.Best);
        // Odds of 3 to 2 between the others stay, and the first is not behind the second: 3/8, 3/8, 2/8.
        Assert.Equal([0.375, 0.375, 0.25], told.Candidates.Select(c => Math.Round(c.Confidence, 9)));
    }

    // Log odds of 0.2 are −ln 4; a half of them and ln 8 are ln 4, the odds of 4 to 1. The other has 0.1 of the 0.8 that were left, so 0.025 of 0.2.
    [Fact]
    public void WhatWasTooUnsureBecomesSurer()
    {
        var told = new Calibration(0.5, Math.Log(8)).Of(new Distribution<string>([new("a", 0.2), new("b", 0.1)]));
        Assert.Equal(0.8, told.Confidence, 1e-9);
        Assert.Equal(0.025, told.Candidates[1].Confidence, 1e-9);
    }

    [Fact]
    public void OneAndZeroStaySane() =>
        Assert.InRange(new Calibration(0.55, 0.2).Of(new Distribution<string>([new("a", 1)])).Confidence, 0.9, 1);
}
