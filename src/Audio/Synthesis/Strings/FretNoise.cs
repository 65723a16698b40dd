using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>The faint squeak of a finger that moves along a wound string: a short band of noise that slides in pitch.</summary>
public static class FretNoise
{
    private const double LengthSeconds = 0.07;

    /// <summary>Sounds about a third of the moves, picked and coloured by the seed.</summary>
    public static Signal Sound(SampleRate rate, IEnumerable<Seconds> moves, Seconds length, int seed)
    {
        var samples = new float[SynthesisRate.Required(rate).SamplesIn(length)];
        var noise = new Noise(seed);
        foreach (var move in moves)
        {
            if (noise.Next() > 0.35)
                Squeak(samples, rate.SamplesIn(move), rate, 1100 + 500 * noise.Next(), noise);
        }
        return new(rate, samples);
    }

    private static void Squeak(float[] samples, int start, SampleRate rate, double frequency, Noise noise)
    {
        var (low, high) = (RunningFilter.BandPass(frequency, 12, rate), RunningFilter.BandPass(1.5 * frequency, 12, rate));
        var count = (int)(LengthSeconds * rate.Hertz);
        for (var i = Math.Max(0, -start); i < count && start + i < samples.Length; i++)
        {
            var x = (double)i / count;
            var shape = Math.Sin(Math.PI * x) * Math.Sin(Math.PI * x);
            var source = noise.Next();
            samples[start + i] += (float)(0.02 * shape * ((1 - x) * low.Next(source) + x * high.Next(source)));
        }
    }
}
