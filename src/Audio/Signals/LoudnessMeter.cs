using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Measures loudness and true peak as ITU-R BS.1770-4, annexes 1 and 2.</summary>
public static class LoudnessMeter
{
    private const double AbsoluteGate = -70, RelativeGate = -10, Offset = -0.691;
    private const double BlockSeconds = 0.4, HopSeconds = 0.1;

    /// <summary>The integrated loudness; null when the signal is silent (all below −70 LUFS) or shorter than 0.4 s.</summary>
    /// <remarks>Every channel has weight 1: right for mono and stereo. Surround channels would weigh 1.41 in the standard.</remarks>
    public static Loudness? Integrated(Signal signal)
    {
        var blocks = BlockPowers(signal).Where(p => Lufs(p) > AbsoluteGate).ToArray();
        if (blocks.Length == 0)
            return null;
        var gate = Lufs(blocks.Average()) + RelativeGate;
        return Loudness.FromLufs(Lufs(blocks.Where(p => Lufs(p) > gate).Average()));
    }

    /// <summary>The highest level between the samples too, in dB of full scale (dBTP); −∞ for digital silence.</summary>
    public static double TruePeak(Signal signal) =>
        20 * Math.Log10(signal.Channels.Max(channel => Peak(channel, signal.Rate)));

    private static double Lufs(double power) => Offset + 10 * Math.Log10(power);

    private static double[] BlockPowers(Signal signal)
    {
        var hop = signal.Rate.SamplesIn(Seconds.FromSeconds(HopSeconds));
        var steps = new double[signal.Length / hop];
        foreach (var channel in signal.Channels)
        {
            var weighted = KWeighting.LowCut(signal.Rate).Filter(KWeighting.Head(signal.Rate).Filter(channel));
            for (var step = 0; step < steps.Length; step++)
                steps[step] += Power(weighted.AsSpan(step * hop, hop));
        }
        var perBlock = (int)Math.Round(BlockSeconds / HopSeconds);
        return [.. Enumerable.Range(0, Math.Max(0, steps.Length - perBlock + 1)).Select(b => steps.AsSpan(b, perBlock).ToArray().Average())];
    }

    private static double Power(ReadOnlySpan<float> samples)
    {
        var sum = 0.0;
        foreach (var sample in samples)
            sum += (double)sample * sample;
        return sum / samples.Length;
    }

    /// <summary>Four times the rate, as annex 2 asks; rates from 192 kHz are fine enough as they are.</summary>
    private static double Peak(float[] channel, SampleRate rate)
    {
        var peak = Highest(channel);
        if (rate.Hertz >= 192_000)
            return peak;
        var finer = new ResamplingStream(rate, SampleRate.FromHertz(4 * rate.Hertz));
        for (var start = 0; start < channel.Length; start += 1 << 14)
            peak = Math.Max(peak, Highest(finer.Push(channel.AsSpan(start, Math.Min(1 << 14, channel.Length - start)))));
        return Math.Max(peak, Highest(finer.Finish()));
    }

    private static float Highest(ReadOnlySpan<float> samples)
    {
        var highest = 0f;
        foreach (var sample in samples)
            highest = Math.Max(highest, Math.Abs(sample));
        return highest;
    }
}
