using Harkbook.Listening.Checking.Strokes;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>How far the order in which strings speak is believed. Expected values are arithmetic by hand.</summary>
public class StrokeDirectionTests
{
    private const double Surely = 60;

    private static double[] Ways(int down, int up) => [.. Enumerable.Repeat(Surely, down), .. Enumerable.Repeat(-Surely, up)];

    /// <summary>20 · 0.095 of 20 at first; s with 2 s (1 − s) = 0.095 is 0.05.</summary>
    [Fact]
    public void NothingLookedAtMisleadsOnceInTwenty() => Assert.Equal(0.05, StrokeDirection.ShareMisled([]), 6);

    /// <summary>1.9 of 220 pairs' worth disagree; s = (1 − √(1 − 2 · 0.008636)) / 2.</summary>
    [Fact]
    public void StrokesThatAgreeAreBelieved() => Assert.Equal(0.004337, StrokeDirection.ShareMisled([Ways(200, 0)]), 6);

    /// <summary>Half down, half up: (1 + 1/199) / 2 of the pairs disagree, 1.9 + 200 · 0.502513 of 220; s = (1 − √0.069068) / 2.</summary>
    [Fact]
    public void StrokesThatContradictThemselvesAreNot() => Assert.Equal(0.368596, StrokeDirection.ShareMisled([Ways(100, 100)]), 5);

    /// <summary>A pattern that is played one way throughout is no contradiction between its places.</summary>
    [Fact]
    public void PlacesOfAPatternMayGoDifferentWays() =>
        Assert.Equal(StrokeDirection.ShareMisled([Ways(200, 0)]), StrokeDirection.ShareMisled([Ways(100, 0), Ways(0, 100)]), 6);

    /// <summary>ln(0.95 / 0.05) = 2.944.</summary>
    [Theory]
    [InlineData(Surely, 0.05, 2.944439)]
    [InlineData(-Surely, 0.05, -2.944439)]
    [InlineData(1.5, 0, 1.5)]
    [InlineData(3, 0.5, 0)]
    public void NoOrderIsSurerThanItsShareLeaves(double logOdds, double share, double expected) =>
        Assert.Equal(expected, StrokeDirection.Misleading(logOdds, share), 5);
}
