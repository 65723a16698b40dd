using Harkbook.Listening.Estimators;

namespace Harkbook.Listening.Tests.Estimators;

public class CalibrationTests
{
    private static readonly Ranked<string> Estimate = new([new("a", 0.9), new("b", 0.06), new("c", 0.04)]);

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
    public void NoOtherBecomesSurerThanTheFirst()
    {
        var told = new Calibration(1, -6).Of(new Ranked<string>([new("a", 0.5), new("b", 0.5)]));
        Assert.Equal("a", told.Best);
        Assert.All(told.Candidates, c => Assert.True(c.Confidence <= told.Confidence));
    }

    [Fact]
    public void NothingBecomesSurer() =>
        Assert.Equal(0.2, new Calibration(0.5, 2).Of(new Ranked<string>([new("a", 0.2), new("b", 0.1)])).Confidence);

    [Fact]
    public void OneAndZeroStaySane() =>
        Assert.InRange(new Calibration(0.55, 0.2).Of(new Ranked<string>([new("a", 1)])).Confidence, 0.9, 1);
}
