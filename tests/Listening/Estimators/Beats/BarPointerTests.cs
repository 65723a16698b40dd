using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BarPointerTests
{
    [Theory]
    [InlineData(48, 4, 2, "4/4")]
    [InlineData(77, 3, 1, "3/4")]
    [InlineData(120, 4, 2, "4/4")]
    [InlineData(120, 2, 0, "2/4")]
    [InlineData(58, 2, 3, "6/8")]
    [InlineData(133, 4, 4, "12/8")]
    [InlineData(187, 3, 1, "3/4")]
    [InlineData(205, 4, 2, "4/4")]
    public void BeatsBarsTempoAndMeterAreThoseOfTheEvidence(double tempo, int beatsPerBar, int meter, string name)
    {
        var beats = Accompaniment.Steady(tempo, 12 * beatsPerBar + 1);
        var heard = Solve(Activations.Of(beats, k => k % beatsPerBar == 0, meter));
        AssertSame(beats, heard);
        Assert.All(heard.Beats.Select((b, k) => (b, k)), x => Assert.Equal(1 + x.k % beatsPerBar, x.b.PositionInBar));
        Assert.Equal(name, heard.Meter.Best.ToString());
        Assert.InRange(heard.Tempo.Best / tempo, 0.995, 1.005);
    }

    [Theory]
    [InlineData(70, 0.3)]
    [InlineData(120, 0.2)]
    public void ATempoThatBendsIsFollowed(double tempo, double share)
    {
        var beats = Accompaniment.Breathing(tempo, share, 97);
        AssertSame(beats, Solve(Activations.Of(beats, k => k % 4 == 0)));
    }

    [Theory]
    [InlineData(599.97)]
    [InlineData(599.99)]
    [InlineData(600.01)]
    public void ABeatBetweenTwoTenMinutesIsHeardOnce(double border)
    {
        var beats = Accompaniment.Steady(100, 1031, border - 999 * 0.6);
        AssertSame(beats, Solve(Activations.Of(beats, k => k % 4 == 0)));
    }

    [Fact]
    public void RestsAreBridged()
    {
        var beats = Accompaniment.Steady(100, 65);
        var evidence = Activations.Of(beats, k => k % 4 == 0);
        for (var k = 24; k < 30; k++)
            Array.Fill(evidence.Beat, 0.03f, (int)(beats[k] * 50) - 4, 9);
        AssertSame(beats, Solve(evidence));
    }

    [Fact]
    public void ABarCutShortIsHeardWhereItIs()
    {
        // Eight bars of four, one of two, eight of four.
        var beats = Accompaniment.Steady(110, 67);
        bool Downbeat(int k) => k <= 32 ? k % 4 == 0 : (k - 34) % 4 == 0;
        var heard = Solve(Activations.Of(beats, Downbeat, 2));
        AssertSame(beats, heard);
        Assert.Equal(Enumerable.Range(0, 67).Where(Downbeat), heard.Beats.Select((b, k) => (b, k)).Where(x => x.b.PositionInBar == 1).Select(x => x.k));
    }

    [Fact]
    public void ConfidencesOfTempiAndOfMetersSumToOne()
    {
        var evidence = Activations.Of(Accompaniment.Steady(120, 65), k => k % 4 == 0, height: 0.5);
        foreach (var off in Accompaniment.Steady(120, 64, 0.75))
            Activations.Bell(evidence.Beat, off, 0.25);
        var heard = Solve(evidence);
        Assert.Equal(1, heard.Tempo.Candidates.Sum(c => c.Confidence), 1e-9);
        Assert.Equal(1, heard.Meter.Candidates.Sum(c => c.Confidence), 1e-9);
    }

    [Theory]
    [InlineData(40)]
    [InlineData(200)]
    public void TheTempoIsThatOfTheBeatsAndSurestAboutTwoASecond(double tempo)
    {
        double Sure(double t)
        {
            var told = Solve(Activations.Of(Accompaniment.Steady(t, 49), k => k % 4 == 0)).Tempo;
            Assert.InRange(told.Best / t, 0.995, 1.005);
            return told.Confidence;
        }
        Assert.True(Sure(tempo) < Sure(120));
    }

    [Fact]
    public void TheNearerTheRivalTheLessSureTheTempo()
    {
        double Sure(double between)
        {
            var evidence = Activations.Of(Accompaniment.Steady(100, 65), k => k % 4 == 0);
            foreach (var off in Accompaniment.Steady(100, 64, 0.8))
                Activations.Bell(evidence.Beat, off, between);
            return Solve(evidence).Tempo.Candidates.First(c => Math.Abs(c.Value - 100) < 2).Confidence;
        }
        Assert.True(Sure(0.02) > Sure(0.17), $"{Sure(0.02)} should be above {Sure(0.17)}");
    }

    [Fact]
    public void OneAnchorTurnsTheGridFromTheOffBeatToTheBeat()
    {
        var off = Accompaniment.Steady(120, 64, 0.75);
        var on = Accompaniment.Steady(120, 65);
        var evidence = Activations.Of(off, k => k % 4 == 0);
        foreach (var beat in on)
            Activations.Bell(evidence.Beat, beat, 0.55);
        Assert.All(Solve(evidence).Beats, b => Assert.InRange(off.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));
        var anchored = Solve(evidence, new BeatAnchor(Seconds.FromSeconds(on[20]), 1));
        Assert.All(anchored.Beats.Skip(2).SkipLast(2), b => Assert.InRange(on.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));
        Assert.Equal(1, anchored.Beats.MinBy(b => Math.Abs(b.Time.Value - on[20]))!.PositionInBar);
    }

    [Fact]
    public void AnAnchorOnADownbeatMovesTheBars()
    {
        var beats = Accompaniment.Steady(96, 49);
        var evidence = Activations.Of(beats, k => k % 4 == 0, 2);
        var heard = Solve(evidence, [.. new[] { 6, 18, 30 }.Select(k => new BeatAnchor(Seconds.FromSeconds(beats[k]), 1))]);
        AssertSame(beats, heard);
        Assert.Equal(1, heard.Beats[6].PositionInBar);
        Assert.Equal(1, heard.Beats[18].PositionInBar);
        Assert.Equal(1, heard.Beats[30].PositionInBar);
    }

    [Fact]
    public void TheSearchBackwardsAgreesWithTheSearchForwards()
    {
        var evidence = Activations.Of(Accompaniment.Breathing(110, 0.1, 33), k => k % 3 == 0);
        var (options, token) = (new DecoderOptions(), TestContext.Current.CancellationToken);
        var scores = new PulseScores(evidence, 14, 62, options, []);
        var pointer = new BarPointer(scores, options, 0, evidence.Frames - 1);
        var beats = pointer.Decode(token);
        var marginals = pointer.Marginals(token);
        Assert.All(beats, b => Assert.Equal(marginals.Max(), marginals[b.Frame * 62 + b.Interval - 14], 0.01));
    }

    [Fact]
    public void TheRoomOfASearchBeforeLeavesNoTrace()
    {
        var evidence = Activations.Of(Accompaniment.Breathing(110, 0.1, 33), k => k % 3 == 0);
        var (options, token) = (new DecoderOptions(), TestContext.Current.CancellationToken);
        var scores = new PulseScores(evidence, 14, 62, options, []);
        var (middle, last) = (evidence.Frames / 2 + 50, evidence.Frames - 1);
        var before = new BarPointer(scores, options, 0, middle);
        before.Decode(token);
        var (fresh, after) = (new BarPointer(scores, options, middle + 1, last), new BarPointer(scores, options, middle + 1, last, before));
        Assert.Equal(fresh.Decode(token), after.Decode(token));
        Assert.Equal(fresh.Marginals(token), after.Marginals(token));
    }

    [Fact]
    public void AnAnchorInNoBarIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new BeatEstimator().Estimate(new Plucks(1).Signal, [new BeatAnchor(Seconds.FromSeconds(0.5), 5)],
            TestContext.Current.CancellationToken));

    private static BeatEstimate Solve(PulseEvidence evidence, params BeatAnchor[] anchors) =>
        new BeatEstimator().Solve(evidence, new(0, evidence.Frames - 1), anchors, TestContext.Current.CancellationToken);

    private static void AssertSame(double[] expected, BeatEstimate heard)
    {
        Assert.Equal(expected.Length, heard.Beats.Length);
        Assert.All(expected.Zip(heard.Beats), x => Assert.Equal(x.First, x.Second.Time.Value, 0.012));
    }
}
