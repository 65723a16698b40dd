using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

public class ResamplerTests
{
    // The sampling theorem: a tone above half the new rate has no place in the result.
    [Theory]
    [InlineData(44_100, 22_050, 15_000)]
    [InlineData(44_100, 22_050, 11_100)]
    [InlineData(48_000, 22_050, 13_000)]
    [InlineData(96_000, 44_100, 30_000)]
    [InlineData(44_100, 16_000, 8_100)]
    public void ToneAboveTheNewHalfRateVanishes(int from, int to, double hertz)
    {
        var result = Middle(Resample(Tones.Sine(hertz, from, from), from, to));
        Assert.True(Tones.Decibels(Tones.Rms(result) * Math.Sqrt(2)) < -100, $"{Tones.Decibels(Tones.Rms(result) * Math.Sqrt(2)):0.0} dB");
    }

    // A tone below it is the same tone sampled at the new times: sample n is sin(2πf·n/to), so level and timing are checked at once.
    [Theory]
    [InlineData(44_100, 22_050, 1000)]
    [InlineData(44_100, 22_050, 10_100)]
    [InlineData(48_000, 22_050, 82.4)]
    [InlineData(22_050, 44_100, 9_000)]
    [InlineData(8_000, 22_050, 3_600)]
    [InlineData(44_100, 48_000, 19_000)]
    [InlineData(44_100, 44_099, 5_000)]
    [InlineData(96_000, 22_050, 440)]
    public void ToneBelowItIsTheSameToneAtTheNewTimes(int from, int to, double hertz)
    {
        var result = Resample(Tones.Sine(hertz, from, from, 0.9), from, to);
        var expected = Tones.Sine(hertz, to, to, 0.9);
        Assert.Equal(expected.Length, result.Length);
        var difference = Middle(result).Zip(Middle(expected), (a, b) => a - b);
        Assert.True(Tones.Decibels(Tones.Rms(difference) / 0.636) < -85, $"{Tones.Decibels(Tones.Rms(difference) / 0.636):0.0} dB");
    }

    [Theory]
    [InlineData(44_100, 22_050, 1001, 500)]
    [InlineData(48_000, 44_100, 48_000, 44_100)]
    [InlineData(8000, 22_050, 1, 3)]
    [InlineData(44_100, 22_050, 0, 0)]
    public void LengthIsTheSameTime(int from, int to, int length, int expected) =>
        Assert.Equal(expected, Resample(new float[length], from, to).Length);

    [Fact]
    public void BlocksMakeTheSameSamplesAsTheWhole()
    {
        var (from, to) = (SampleRate.FromHertz(48_000), SampleRate.FromHertz(22_050));
        var samples = Tones.Noise(3, 20_000);
        var stream = new ResamplingStream(from, to);
        var parts = new List<float>();
        for (var start = 0; start < samples.Length; start += 777)
            parts.AddRange(stream.Push(samples.AsSpan(start, Math.Min(777, samples.Length - start))));
        parts.AddRange(stream.Finish());
        Assert.Equal(Resampler.Resample(new Signal(from, samples), to).Channels[0], parts);
    }

    [Fact]
    public void SameRateIsTheSameSignal()
    {
        var signal = Tones.Mono(44_100, Tones.Noise(4, 100));
        Assert.Same(signal, Resampler.Resample(signal, signal.Rate));
    }

    private static float[] Resample(float[] samples, int from, int to) =>
        Resampler.Resample(Tones.Mono(from, samples), SampleRate.FromHertz(to)).Channels[0];

    private static float[] Middle(float[] samples) => samples[(samples.Length / 4)..(3 * samples.Length / 4)];
}
