using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>
/// A room's answer to a sound: eight delays that feed each other through a Householder matrix, each losing what the
/// reverberation time asks (Jot &amp; Chaigne, "Digital delay networks for designing artificial reverberators", AES 90th
/// Convention, 1991), darker as it decays.
/// </summary>
public sealed class Room
{
    private static readonly double[] DelayMilliseconds = [23.7, 29.3, 33.1, 37.9, 41.3, 47.9, 53.3, 61.7];
    private readonly SampleRate rate;
    private readonly float[][] lines;
    private readonly double[] gains;
    private readonly OnePole[] damping;
    private readonly int[] places = new int[DelayMilliseconds.Length];

    /// <param name="reverberation">Time for the tail to fall by 60 dB below 1 kHz; 0.1 to 10 s.</param>
    public Room(SampleRate rate, Seconds reverberation)
    {
        if (reverberation.Value is < 0.1 or > 10)
            throw new ArgumentOutOfRangeException(nameof(reverberation), reverberation, "A room rings for 0.1 to 10 s.");
        this.rate = SynthesisRate.Required(rate);
        lines = [.. DelayMilliseconds.Select(ms => new float[(int)(ms / 1000 * rate.Hertz)])];
        gains = [.. lines.Select(l => Math.Pow(10, -3.0 * l.Length / rate.Hertz / reverberation.Value))];
        damping = [.. lines.Select(_ => OnePole.LowPass(5000, rate.Hertz))];
    }

    /// <summary>The room alone, in two channels, for one channel of dry sound. The tail beyond the dry sound's end is cut.</summary>
    public Signal Answer(Signal dry)
    {
        var input = dry.ToMono().Channels[0];
        if (dry.Rate != rate)
            throw new ArgumentException($"The room runs at {rate}, the sound at {dry.Rate}; resample one first.", nameof(dry));
        var (left, right) = (new float[input.Length], new float[input.Length]);
        Span<double> taps = stackalloc double[lines.Length];
        for (var n = 0; n < input.Length; n++)
            (left[n], right[n]) = Next(input[n], taps);
        return new(rate, left, right);
    }

    private (float Left, float Right) Next(double input, Span<double> taps)
    {
        double sum = 0, left = 0, right = 0;
        for (var i = 0; i < lines.Length; i++)
        {
            taps[i] = damping[i].Next(gains[i] * lines[i][places[i]]);
            sum += taps[i];
            left += i % 2 == 0 ? taps[i] : -0.3 * taps[i];
            right += i % 2 == 1 ? taps[i] : -0.3 * taps[i];
        }
        for (var i = 0; i < lines.Length; i++)
        {
            lines[i][places[i]] = (float)(input + taps[i] - 2 * sum / lines.Length);
            places[i] = (places[i] + 1) % lines[i].Length;
        }
        return ((float)(0.35 * left), (float)(0.35 * right));
    }
}
