using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis.Mixing;
using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

public class MixerTests
{
    private static readonly SampleRate Cd = SampleRate.FromHertz(44_100);

    [Fact]
    public void PanningKeepsThePower()
    {
        var sine = Measure.Sine(44_100, 440, 0.5);
        foreach (var pan in new[] { -1, -0.4, 0, 0.7, 1 })
        {
            var mix = Mixer.Sum(Cd, [new(sine, 0, pan)]);
            var power = mix.Channels.Sum(c => c.Sum(x => (double)x * x));
            Assert.Equal(sine.Channels[0].Sum(x => (double)x * x), power, 0.01);
        }
    }

    [Fact]
    public void AMasterHasTheLoudnessAskedForAndNoPeakOverMinus1DBFS()
    {
        var strings = Enumerable.Range(0, 6)
            .Select(s => Enumerable.Range(0, 8).Select(i => new Pluck(Seconds.FromSeconds(i), Seconds.FromSeconds(i + 1), Hertz.FromHertz(100 * (s + 1)), 1))
            .ToArray()).ToArray();
        var guitar = new StringInstrument(Cd, StringSet.Steel, 1).Sound(strings, Seconds.FromSeconds(8), TestContext.Current.CancellationToken);
        var master = Mixer.Master(Mixer.Sum(Cd, [new(guitar)]), Loudness.FromLufs(-16));
        Assert.Equal(-16, LoudnessMeter.Integrated(master)!.Value.Lufs, 0.6);
        Assert.All(master.Channels, c => Assert.True(c.Max(Math.Abs) <= Math.Pow(10, -1 / 20.0) + 1e-6));
    }

    [Fact]
    public void TheLimiterLeavesWhatIsUnderTheCeilingAlone()
    {
        var sine = Measure.Sine(44_100, 440, 0.5, 0.8);
        Assert.Equal(sine.Channels[0], Limiter.Limit(sine, 0.891).Channels[0]);
    }

    [Fact]
    public void TheLimiterTurnsDownWithoutBendingTheWave()
    {
        var limited = Limiter.Limit(Measure.Sine(44_100, 440, 1, 4), 0.5);
        Assert.InRange(Measure.Decibels(Measure.Level(limited, 0.3, 0.5, 1320) / Measure.Level(limited, 0.3, 0.5, 440)), double.NegativeInfinity, -40);
    }

    [Fact]
    public void TracksOfTwoRatesAreRefused() =>
        Assert.Throws<ArgumentException>(() => Mixer.Sum(Cd, [new(Measure.Sine(48_000, 440, 0.1))]));
}
