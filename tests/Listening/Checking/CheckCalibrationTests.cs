using Harkbook.Listening.Checking;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>
/// Evidence and how often claims are wrong are joined by Bayes's rule, by hand. Nothing is fitted for attacks, so their log-odds count as they are.
/// One error of a kind a minute, at most one claim in twenty, two right ones doubted a minute, one at least: as models/check.json says.
/// </summary>
public class CheckCalibrationTests
{
    private static Finding[] Claims(int count, Func<int, double> logOdds) =>
        [.. Enumerable.Range(0, count).Select(i => Finding.Weighed(ClaimKind.Attack, logOdds(i), null, $"{i}"))];

    /// <summary>2 minutes hold 2 errors: of 400 claims 1 in 200; of 10 no more than 1 in 20.</summary>
    [Theory]
    [InlineData(400, 0.995)]
    [InlineData(10, 0.95)]
    public void WhatSaysNothingLeavesAClaimAsSureAsItsKindIs(int claims, double support) =>
        Assert.All(CheckCalibration.Shipped.Judge(Claims(claims, _ => 0), 2), f => Assert.Equal(support, f.Support, 6));

    /// <summary>Odds of 19 to 1 for a claim, times 1 to 38 by what is heard: 1 to 2.</summary>
    [Fact]
    public void EvidenceMultipliesTheOdds() =>
        Assert.Equal(1 / 3.0, CheckCalibration.Shipped.Judge(Claims(1, _ => -Math.Log(38)), 2).Single().Support, 6);

    [Theory]
    [InlineData(0.1)]
    [InlineData(3)]
    public void TheDoubtedHoldNoMoreRightOnesThanMayBe(double minutes)
    {
        var judged = CheckCalibration.Shipped.Judge(Claims(200, i => -6 + 0.05 * i), minutes);
        var doubted = judged.Where(f => f.Verdict != Verdict.Supported).ToList();
        Assert.NotEmpty(doubted);
        Assert.InRange(doubted.Sum(f => f.Support), 0, Math.Max(1, 2 * minutes));
        Assert.True(doubted.Max(f => f.Support) < judged.Where(f => f.Verdict == Verdict.Supported).Min(f => f.Support));
    }
}
