using Harkbook.Audio.Signals;
using Harkbook.Audio.Synthesis;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Synthesis;

/// <summary>Values of ITU-R BS.1770-4 and EBU Tech 3341 (test signals 1 to 5; tolerance ±0.1 LU).</summary>
public class LoudnessTests
{
    [Fact]
    public void A_full_scale_sine_of_997_Hz_in_one_channel_is_minus_3_01()
    {
        var sine = Measure.Sine(48_000, 997, 5).Channels[0];
        Assert.Equal(-3.01, Loudness.Of(new(SampleRate.FromHertz(48_000), sine, new float[sine.Length])), 0.01);
    }

    [Theory]
    [InlineData(-23.0, "-23 20")]
    [InlineData(-33.0, "-33 20")]
    [InlineData(-23.0, "-36 10, -23 60, -36 10")]
    [InlineData(-23.0, "-72 10, -36 10, -23 60, -36 10, -72 10")]
    [InlineData(-23.0, "-26 20, -20 20.1, -26 20")]
    public void The_gates_pick_out_the_programme(double wanted, string stretches)
    {
        foreach (var rate in new[] { 48_000, 44_100 })
            Assert.Equal(wanted, Loudness.Of(Sines(rate, stretches)), 0.1);
    }

    [Fact]
    public void Silence_has_no_loudness() =>
        Assert.Equal(double.NegativeInfinity, Loudness.Of(new(SampleRate.FromHertz(48_000), new float[96_000])));

    private static Signal Sines(int rate, string stretches)
    {
        var levels = stretches.Split(',').Select(s => s.Trim().Split(' ')).SelectMany(s => Enumerable.Repeat(Math.Pow(10, double.Parse(s[0]) / 20), (int)(double.Parse(s[1]) * rate)));
        var samples = levels.Select((level, i) => (float)(level * Math.Sin(2 * Math.PI * 1000 * i / rate))).ToArray();
        return new(SampleRate.FromHertz(rate), samples, samples);
    }
}
