using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Isolation;

/// <summary>A band of frequencies: a high-pass and a low-pass of fourth order, both Butterworth (−3 dB at each end, 24 dB an octave beyond).</summary>
internal sealed class Band(string text, double low, double high) : SoundPart(text)
{
    /// <summary>The two sections of a Butterworth filter of fourth order: 1/(2·cos(π/8)) and 1/(2·cos(3π/8)).</summary>
    private static readonly double[] Sharpness = [0.5411961, 1.3065630];

    public override Signal Of(Signal sound, CancellationToken ct = default) => new(sound.Rate, [.. sound.Channels.Select(c => Filtered(c, sound.Rate))]);

    private float[] Filtered(float[] samples, SampleRate rate)
    {
        var nyquist = 0.499 * rate.Hertz;
        foreach (var q in Sharpness)
        {
            if (low < nyquist)
                samples = Biquad.HighPass(rate, Hertz.FromHertz(low), q).Filter(samples);
            if (high < nyquist)
                samples = Biquad.LowPass(rate, Hertz.FromHertz(high), q).Filter(samples);
        }
        return samples;
    }
}
