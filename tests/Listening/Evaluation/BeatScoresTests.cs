using Harkbook.Listening.Evaluation;

namespace Harkbook.Listening.Tests.Evaluation;

/// <summary>Expected values: mir_eval 0.7's own fixtures, and small pairs run through mir_eval 0.7.</summary>
public class BeatScoresTests
{
    public static TheoryData<string> Numbers => Fixture.Numbers(10);

    private static readonly double[] Steady = [.. Enumerable.Range(0, 60).Select(i => i * 0.5)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void ScoresEqualThePublishedOnes(string number)
    {
        var reference = BeatScores.Trimmed(Fixture.Column("beat", $"ref{number}.txt"));
        var estimated = BeatScores.Trimmed(Fixture.Column("beat", $"est{number}.txt"));
        var continuity = BeatScores.Continuity(reference, estimated);

        Assert.Equal(Fixture.Expected("beat", number, "F-measure"), BeatScores.FMeasure(reference, estimated).F, 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "Cemgil"), BeatScores.Cemgil(reference, estimated), 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "P-score"), BeatScores.PScore(reference, estimated), 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "Correct Metric Level Continuous"), continuity.CorrectLevelRun, 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "Correct Metric Level Total"), continuity.CorrectLevelTotal, 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "Any Metric Level Continuous"), continuity.AnyLevelRun, 1e-10);
        Assert.Equal(Fixture.Expected("beat", number, "Any Metric Level Total"), continuity.AnyLevelTotal, 1e-10);
    }

    [Theory]
    [InlineData(0.05, 1, 0.457833, 1)]
    [InlineData(0.08, 0, 0.135335, 1)]
    public void AShiftIsJudgedByEachMeasureInItsWay(double shift, double f, double cemgil, double p)
    {
        var shifted = Steady.Select(b => b + shift).ToArray();
        Assert.Equal(f, BeatScores.FMeasure(Steady, shifted).F, 1e-6);
        Assert.Equal(cemgil, BeatScores.Cemgil(Steady, shifted), 1e-6);
        Assert.Equal(p, BeatScores.PScore(Steady, shifted), 1e-6);
        Assert.Equal(1, BeatScores.Continuity(Steady, shifted).CorrectLevelRun);
    }

    [Fact]
    public void HalfTheBeatsAreRightAtAnotherLevel()
    {
        var half = Steady.Where((_, i) => i % 2 == 0).ToArray();
        Assert.Equal(0.666667, BeatScores.FMeasure(Steady, half).F, 1e-6);
        Assert.Equal(0, BeatScores.Continuity(Steady, half).CorrectLevelRun);
        Assert.Equal(1, BeatScores.Continuity(Steady, half).AnyLevelRun);
        Assert.Equal(0.5, BeatScores.PScore(Steady, half), 1e-6);
    }

    [Fact]
    public void NothingEstimatedScoresNothing()
    {
        Assert.Equal(0, BeatScores.FMeasure(Steady, []).F);
        Assert.Equal(default, BeatScores.Continuity(Steady, []));
    }
}
