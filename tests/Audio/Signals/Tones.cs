using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Tests.Signals;

/// <summary>Sound whose truth is known by formula.</summary>
internal static class Tones
{
    public static float[] Sine(double hertz, int rate, int length, double amplitude = 1, double phase = 0) =>
        [.. Enumerable.Range(0, length).Select(n => (float)(amplitude * Math.Sin(2 * Math.PI * hertz * n / rate + phase)))];

    public static Signal Mono(int rate, float[] samples) => new(SampleRate.FromHertz(rate), samples);

    public static float[] Noise(int seed, int length)
    {
        var random = new Random(seed);
        return [.. Enumerable.Range(0, length).Select(_ => (float)(2 * random.NextDouble() - 1))];
    }

    public static double Decibels(double ratio) => 20 * Math.Log10(ratio);

    public static double Rms(IEnumerable<float> samples) => Math.Sqrt(samples.Average(s => (double)s * s));
}
