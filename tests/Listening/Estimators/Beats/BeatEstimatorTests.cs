using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BeatEstimatorTests
{
    private static readonly BeatEstimator Estimator = new();

    [Theory]
    [InlineData(72, 44100)]
    [InlineData(90, 16000)]
    [InlineData(100, 22050)]
    [InlineData(126, 48000)]
    [InlineData(140, 16000)]
    [InlineData(160, 22050)]
    public void ClicksAreBeats(double beatsPerMinute, int rate)
    {
        var beats = Accompaniment.Steady(beatsPerMinute, 30);
        var plucks = new Plucks(beats[^1] + 1, rate);
        foreach (var beat in beats)
            plucks.Click(beat);
        var estimate = Estimator.Estimate(plucks.Signal, TestContext.Current.CancellationToken);
        Assert.InRange(estimate.Tempo.Best / beatsPerMinute, 0.99, 1.01);
        AssertNear(beats, estimate.Beats, 0.020);
    }

    [Theory]
    [InlineData(80, 4, 2)]
    [InlineData(96, 4, 2)]
    [InlineData(112, 4, 1)]
    [InlineData(120, 3, 1)]
    public void StrummedBeatsAreFound(double beatsPerMinute, int beatsPerBar, int divisions)
    {
        var beats = Accompaniment.Steady(beatsPerMinute, 12 * beatsPerBar + 1);
        var estimate = Estimator.Estimate(Accompaniment.Play(beats, beatsPerBar, divisions), TestContext.Current.CancellationToken);
        Assert.InRange(estimate.Tempo.Best / beatsPerMinute, 0.98, 1.02);
        AssertNear(beats, estimate.Beats, 0.035);
    }

    [Fact]
    public void ATempoThatBreathesIsFollowed()
    {
        var beats = Accompaniment.Breathing(95, 0.10, 64);
        AssertNear(beats, Estimator.Estimate(Accompaniment.Play(beats, 4, 2), TestContext.Current.CancellationToken).Beats, 0.035);
    }

    [Theory]
    [InlineData("4/4", 4, 2, 100)]
    [InlineData("3/4", 3, 1, 120)]
    [InlineData("6/8", 2, 3, 64)]
    public void TheMeterIsHeardAndItsDownbeats(string meter, int beatsPerBar, int divisions, double beatsPerMinute)
    {
        var beats = Accompaniment.Steady(beatsPerMinute, 16 * beatsPerBar + 1);
        var estimate = Estimator.Estimate(Accompaniment.Play(beats, beatsPerBar, divisions), TestContext.Current.CancellationToken);
        Assert.Equal(meter, estimate.Meter.Best.ToString());
        var downbeats = estimate.Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time.Value).ToArray();
        Assert.All(beats.Where((_, k) => k % beatsPerBar == 0), t => Assert.Contains(downbeats, d => Math.Abs(d - t) < 0.05));
        Assert.InRange(downbeats.Length, 16, 18);
    }

    [Fact]
    public void APickUpCountsTowardsItsOwnBar()
    {
        var beats = Accompaniment.Steady(100, 49, 1.5);
        var signal = Accompaniment.Play(beats, 4, 2);
        var pickUp = new Plucks(signal.Duration.Value);
        pickUp.Note(0.9, 62, 2);
        var both = signal.Channels[0].Zip(pickUp.Signal.Channels[0], (a, b) => a + b).ToArray();
        var estimate = Estimator.Estimate(new Signal(signal.Rate, both), TestContext.Current.CancellationToken);
        Assert.Equal(4, estimate.Beats[0].PositionInBar);
        Assert.InRange(estimate.Beats[0].Time.Value, 0.85, 0.95);
    }

    [Fact]
    public void NoBeatsAreInventedBeforeOrAfterTheMusic()
    {
        var beats = Accompaniment.Steady(100, 33, 4.0);
        var music = Accompaniment.Play(beats, 4, 2);
        var padded = new Signal(music.Rate, [.. music.Channels[0], .. new float[5 * music.Rate.Hertz]]);
        var found = Estimator.Estimate(padded, TestContext.Current.CancellationToken).Beats;
        Assert.InRange(found[0].Time.Value, 3.9, 4.1);
        Assert.InRange(found[^1].Time.Value, beats[^2], beats[^1] + 0.1);
    }

    [Fact]
    public void SilenceHasNoBeats()
    {
        var estimate = Estimator.Estimate(new Plucks(12).Signal, TestContext.Current.CancellationToken);
        Assert.Empty(estimate.Beats);
        Assert.Equal(0, estimate.Tempo.Best);
    }

    [Fact]
    public void ARecordingShorterThanABarGivesNoAnswerRatherThanAnError()
    {
        var plucks = new Plucks(0.4);
        plucks.Click(0.1);
        Assert.Empty(Estimator.Estimate(plucks.Signal, TestContext.Current.CancellationToken).Beats);
    }

    [Fact]
    public void NoiseIsTrustedLessThanAStrum()
    {
        var noise = new Plucks(30);
        noise.Noise(seed: 7, strength: 0.3);
        var heard = Estimator.Estimate(noise.Signal, TestContext.Current.CancellationToken);
        var strummed = Estimator.Estimate(Accompaniment.Play(Accompaniment.Steady(100, 48), 4, 2), TestContext.Current.CancellationToken);
        Assert.InRange(heard.Tempo.Candidates.Where(c => c.Value > 0).Sum(c => c.Confidence), 0, 0.25);
        Assert.InRange(strummed.Tempo.Confidence, 0.5, 1);
        Assert.All(heard.Beats, b => Assert.InRange(b.Confidence, 0, 0.3));
    }

    [Fact]
    public void TheSameSoundGivesTheSameBeats()
    {
        var signal = Accompaniment.Play(Accompaniment.Steady(90, 33), 4, 2);
        var token = TestContext.Current.CancellationToken;
        Assert.Equal(Estimator.Estimate(signal, token).Beats, Estimator.Estimate(signal, token).Beats);
    }

    [Fact]
    public void ItStopsWhenAsked() =>
        Assert.ThrowsAny<OperationCanceledException>(() =>
            Estimator.Estimate(Accompaniment.Play(Accompaniment.Steady(90, 33), 4, 2), new CancellationToken(canceled: true)));

    [Fact]
    public void StereoIsRefused() =>
        Assert.Throws<ArgumentException>(() => Estimator.Estimate(new Signal(SampleRate.FromHertz(8000), new float[800], new float[800]),
            TestContext.Current.CancellationToken));

    private static void AssertNear(double[] expected, IEnumerable<HeardBeat> found, double within)
    {
        var times = found.Select(b => b.Time.Value).ToArray();
        Assert.InRange(times.Length, expected.Length - 1, expected.Length + 1);
        Assert.All(times, t => Assert.InRange(expected.Min(e => Math.Abs(e - t)), 0, within));
    }
}
