using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Changes the sample rate: flat within 0.01 dB to 92 % of the lower rate's half, aliases 100 dB down or more, times unchanged.</summary>
public static class Resampler
{
    private const int Block = 1 << 16;

    /// <returns>A signal of length·to/from samples, rounded; the same signal when the rate is the same already.</returns>
    public static Signal Resample(Signal signal, SampleRate to) =>
        signal.Rate == to ? signal : new(to, [.. signal.Channels.Select(c => Channel(c, signal.Rate, to))]);

    private static float[] Channel(float[] samples, SampleRate from, SampleRate to)
    {
        var stream = new ResamplingStream(from, to);
        var output = new List<float>((int)((double)samples.Length * to.Hertz / from.Hertz) + 1);
        for (var start = 0; start < samples.Length; start += Block)
            output.AddRange(stream.Push(samples.AsSpan(start, Math.Min(Block, samples.Length - start))));
        output.AddRange(stream.Finish());
        return [.. output];
    }
}
