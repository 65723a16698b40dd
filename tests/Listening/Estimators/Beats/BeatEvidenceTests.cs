using Harkbook.Listening.Estimators.Beats;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BeatEvidenceTests
{
    [Fact]
    public void TheTempoIsExplainedInPlayersWords()
    {
        var beats = Accompaniment.Steady(96, 41);
        var evidence = Estimate(beats, 4, 2).Tempo.Candidates[0].Evidence;
        Assert.Contains("strokes on every half of it", evidence);
        Assert.Contains("bass notes every 4 beats", evidence);
        Assert.Contains("the music begins on a beat", evidence);
    }

    [Fact]
    public void BeatsWithoutStrokesBetweenAreNotSaidToHaveThem() =>
        Assert.DoesNotContain("half", Estimate(Accompaniment.Steady(104, 41), 4, 1).Tempo.Candidates[0].Evidence);

    [Fact]
    public void TheMeterIsExplainedByWhatStandsOutInTheBar()
    {
        var meter = Estimate(Accompaniment.Steady(120, 37), 3, 1).Meter.Candidates[0];
        Assert.Contains("on the first of every 3 beats", meter.Evidence);
        Assert.Contains("begins on a downbeat", meter.Evidence);
    }

    private static BeatEstimate Estimate(double[] beats, int beatsPerBar, int divisions) =>
        new BeatEstimator().Estimate(Accompaniment.Play(beats, beatsPerBar, divisions), TestContext.Current.CancellationToken);
}
