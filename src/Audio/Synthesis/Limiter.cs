using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Synthesis;

/// <summary>Keeps peaks under a ceiling by turning down just before them and coming back slowly; all channels together.</summary>
public static class Limiter
{
    private const double AheadSeconds = 0.004;
    private const double ReleaseSeconds = 0.3;

    /// <param name="ceiling">Greatest sample that may leave; 0.891 is −1 dBFS.</param>
    public static Signal Limit(Signal signal, double ceiling)
    {
        var gain = Gains(signal, ceiling);
        return new(signal.Rate, [.. signal.Channels.Select(c => c.Select((x, i) => (float)Math.Clamp(x * gain[i], -ceiling, ceiling)).ToArray())]);
    }

    /// <summary>The gain of each sample: a straight fall to each peak, an exponential rise after it.</summary>
    private static double[] Gains(Signal signal, double ceiling)
    {
        var gain = new double[signal.Length];
        for (var i = 0; i < gain.Length; i++)
            gain[i] = Math.Min(1, ceiling / Math.Max(1e-9, signal.Channels.Max(c => Math.Abs(c[i]))));
        var fall = 1 / (AheadSeconds * signal.Rate.Hertz);
        for (var i = gain.Length - 2; i >= 0; i--)
            gain[i] = Math.Min(gain[i], gain[i + 1] + fall);
        var rise = 1 - Math.Exp(-1 / (ReleaseSeconds * signal.Rate.Hertz));
        for (var i = 1; i < gain.Length; i++)
            gain[i] = Math.Min(gain[i], gain[i - 1] + rise * (1 - gain[i - 1]));
        return gain;
    }
}
