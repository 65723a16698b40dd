using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>Keeps peaks under a ceiling by turning down just before them and coming back slowly; all channels together.</summary>
public static class Limiter
{
    private const double AheadSeconds = 0.004;
    private const double ReleaseSeconds = 0.3;
    private const int BlockLength = 1 << 14;

    /// <param name="ceiling">Greatest sample that may leave; 0.891 is −1 dBFS.</param>
    public static Signal Limit(Signal signal, double ceiling) => Blocks(signal, 1, ceiling).Gathered(signal.Rate, signal.ChannelCount);

    /// <summary>A sound raised by a gain and then limited, in blocks of an array a channel.</summary>
    /// <param name="factor">The gain before limiting.</param>
    public static IEnumerable<float[][]> Blocks(ISound sound, double factor, double ceiling)
    {
        var fall = 1 / (AheadSeconds * sound.Rate.Hertz);
        var rise = 1 - Math.Exp(-1 / (ReleaseSeconds * sound.Rate.Hertz));
        var ahead = (int)Math.Ceiling(1 / fall) + 2;
        var last = double.NaN;
        for (var start = 0; start < sound.Length; start += BlockLength)
        {
            var length = Math.Min(BlockLength, sound.Length - start);
            var channels = Raised(sound, start, length + ahead, factor);
            var gain = Falling(channels, ceiling, fall);
            Rise(gain.AsSpan(0, length), rise, ref last);
            yield return [.. channels.Select(c => Limited(c.AsSpan(0, length), gain, ceiling))];
        }
    }

    private static float[][] Raised(ISound sound, int start, int length, double factor)
    {
        var channels = sound.Cut(start, length).Channels;
        foreach (var channel in channels)
        {
            for (var i = 0; i < channel.Length; i++)
                channel[i] = (float)(channel[i] * factor);
        }
        return [.. channels];
    }

    /// <summary>The gain that each sample asks for, and a straight fall to each peak. A peak farther ahead than the block reaches isn't felt yet.</summary>
    private static double[] Falling(float[][] channels, double ceiling, double fall)
    {
        var gain = new double[channels[0].Length];
        for (var i = gain.Length - 1; i >= 0; i--)
        {
            var peak = 1e-9;
            foreach (var channel in channels)
                peak = Math.Max(peak, Math.Abs(channel[i]));
            gain[i] = Math.Min(1, ceiling / peak);
            if (i + 1 < gain.Length)
                gain[i] = Math.Min(gain[i], gain[i + 1] + fall);
        }
        return gain;
    }

    /// <summary>An exponential rise after each peak, from the sample before on.</summary>
    private static void Rise(Span<double> gain, double rise, ref double last)
    {
        foreach (ref var g in gain)
        {
            if (!double.IsNaN(last))
                g = Math.Min(g, last + rise * (1 - last));
            last = g;
        }
    }

    private static float[] Limited(ReadOnlySpan<float> samples, double[] gain, double ceiling)
    {
        var limited = new float[samples.Length];
        for (var i = 0; i < limited.Length; i++)
            limited[i] = (float)Math.Clamp(samples[i] * gain[i], -ceiling, ceiling);
        return limited;
    }
}
