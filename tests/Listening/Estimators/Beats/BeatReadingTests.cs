using Harkbook.Listening.Estimators.Beats;
using Harkbook.Music.Theory;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Beats;

public class BeatReadingTests
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
    [InlineData(45)]
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
    public void OneTapTurnsTheGridFromTheOffBeatToTheBeat()
    {
        var off = Accompaniment.Steady(120, 64, 0.75);
        var on = Accompaniment.Steady(120, 65);
        var evidence = Activations.Of(off, k => k % 4 == 0, tempo: 120);
        foreach (var beat in on)
            Activations.Bell(evidence.Beat, beat, 0.55);
        Assert.All(Solve(evidence).Beats, b => Assert.InRange(off.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));
        var tapped = Solve(evidence, Tap(on[20], 1));
        Assert.All(tapped.Beats.Skip(2).SkipLast(2), b => Assert.InRange(on.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));
        Assert.Equal(1, tapped.Beats.MinBy(b => Math.Abs(b.Time.Value - on[20]))!.PositionInBar);
    }

    [Theory]
    [InlineData(18)]
    [InlineData(6, 18, 30)]
    public void ATapOnADownbeatMovesTheBarsAsAWhole(params int[] tapped)
    {
        var beats = Accompaniment.Steady(96, 49);
        var heard = Solve(Activations.Of(beats, k => k % 4 == 0, 2), [.. tapped.Select(k => Tap(beats[k], 1))]);
        AssertSame(beats, heard);
        Assert.Equal(beats.Select((_, k) => (k + 2) % 4 + 1), heard.Beats.Select(b => b.PositionInBar));
    }

    [Fact]
    public void ATappedBeatLiesWhereItWasTappedAndIsSure()
    {
        var beats = Accompaniment.Steady(100, 49);
        var heard = Solve(Activations.Of(beats, k => k % 4 == 0), Tap(beats[20] + 0.013));
        Assert.Contains(heard.Beats, b => b.Time.Value == beats[20] + 0.013 && b.Confidence == 1);
    }

    [Fact]
    public void TwoTapsThatDisagreeLetTheGridJumpBetweenThem()
    {
        var on = Accompaniment.Steady(100, 97);
        var evidence = Activations.Of(on, k => k % 4 == 0, tempo: 100);
        foreach (var beat in on)
            Activations.Bell(evidence.Beat, beat + 0.3, 0.4);
        var heard = Solve(evidence, Tap(on[20]), Tap(on[70] + 0.3));
        Assert.All(heard.Beats.Where(b => b.Time.Value < on[21]), b => Assert.InRange(on.Min(t => Math.Abs(t - b.Time.Value)), 0, 0.03));
        Assert.All(heard.Beats.Where(b => b.Time.Value > on[71]), b => Assert.InRange(on.Min(t => Math.Abs(t + 0.3 - b.Time.Value)), 0, 0.04));
    }

    [Theory]
    [InlineData(3)]
    [InlineData(4)]
    public void AToldMeterRestrictsTheBars(int told)
    {
        var beats = Accompaniment.Steady(96, 61);
        var heard = Solve(Activations.Of(beats, k => k % 12 == 0, 1), Claims.None with { Meter = Meter.Of(told, 4) });
        AssertSame(beats, heard);
        Assert.Equal(beats.Select((_, k) => k % told + 1), heard.Beats.Select(b => b.PositionInBar));
        Assert.Equal(1, heard.Meter.Confidence);
    }

    [Theory]
    [InlineData(75)]
    [InlineData(150)]
    [InlineData(37.5)]
    public void AToldTempoRestrictsTheIntervals(double told)
    {
        var beats = Accompaniment.Steady(150, 121);
        var evidence = Activations.Of(beats, k => k % 8 == 0, height: 0.5);
        var heard = Solve(evidence, Claims.None with { Tempo = TempoRange.About(told) });
        Assert.InRange(heard.Tempo.Best / told, 0.99, 1.01);
    }

    [Fact]
    public void ATapLeavesBeatsBeyondOneThatAgreesAsTheyWere()
    {
        var on = Accompaniment.Steady(120, 97);
        var evidence = Activations.Of(on, k => k % 4 == 0, tempo: 120);
        foreach (var beat in on)
            Activations.Bell(evidence.Beat, beat + 0.25, 0.4);
        var (alone, tapped) = (Solve(evidence), Solve(evidence, Tap(on[20] + 0.25), Tap(on[60])));
        bool Beyond(HeardBeat b) => b.Time.Value > on[70];
        Assert.Equal(alone.Beats.Where(Beyond).Select(b => (b.Time, b.PositionInBar)), tapped.Beats.Where(Beyond).Select(b => (b.Time, b.PositionInBar)));
        Assert.All(alone.Beats.Where(Beyond).Zip(tapped.Beats.Where(Beyond)), p => Assert.InRange(p.Second.Confidence, p.First.Confidence - 0.05, 1));
    }

    [Fact]
    public void ReadingAgainIsReadingAfresh()
    {
        var beats = Accompaniment.Steady(96, 49);
        var reading = new BeatReading(Activations.Of(beats, k => k % 4 == 0));
        var claims = Claims.None with { Beats = [Tap(beats[9], 1)] };
        var fresh = new BeatReading(Activations.Of(beats, k => k % 4 == 0)).Read(claims, new(), TestContext.Current.CancellationToken);
        reading.Read(Claims.None, new(), TestContext.Current.CancellationToken);
        Assert.Equal(fresh.Beats, reading.Read(claims, new(), TestContext.Current.CancellationToken).Beats);
    }

    [Fact]
    public void ABeatBeforeTheFirstOfABarIsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Solve(Activations.Of(Accompaniment.Steady(96, 9), k => k % 4 == 0), Tap(0.5, 0)));

    private static BeatClaim Tap(double time, int? position = null) => new(Seconds.FromSeconds(time), position);

    private static BeatEstimate Solve(PulseEvidence evidence, params BeatClaim[] taps) => Solve(evidence, Claims.None with { Beats = [.. taps] });

    private static BeatEstimate Solve(PulseEvidence evidence, Claims claims) =>
        new BeatReading(evidence).Read(claims, new(), TestContext.Current.CancellationToken);

    private static void AssertSame(double[] expected, BeatEstimate heard)
    {
        Assert.Equal(expected.Length, heard.Beats.Length);
        Assert.All(expected.Zip(heard.Beats), x => Assert.Equal(x.First, x.Second.Time.Value, 0.012));
    }
}
