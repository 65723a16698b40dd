using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Isolation;

/// <summary>A band of frequencies: a high-pass and a low-pass of fourth order, both Butterworth (−3 dB at each end, 24 dB an octave beyond).</summary>
internal sealed class Band(string text, double low, double high) : SoundPart(text)
{
    /// <summary>The two sections of a Butterworth filter of fourth order: 1/(2·cos(π/8)) and 1/(2·cos(3π/8)).</summary>
    private static readonly double[] Sharpness = [0.5411961, 1.3065630];

    internal override IEnumerable<float[][]> Blocks(ISound sound, CancellationToken ct)
    {
        var filters = Enumerable.Range(0, sound.ChannelCount).Select(_ => Filters(sound.Rate)).ToArray();
        foreach (var block in Blocks(sound))
        {
            ct.ThrowIfCancellationRequested();
            for (var c = 0; c < block.Length; c++)
            {
                foreach (var filter in filters[c])
                    filter.Run(block[c]);
            }
            yield return block;
        }
    }

    private BiquadRun[] Filters(SampleRate rate)
    {
        var nyquist = 0.499 * rate.Hertz;
        var filters = new List<Biquad>();
        foreach (var q in Sharpness)
        {
            if (low < nyquist)
                filters.Add(Biquad.HighPass(rate, Hertz.FromHertz(low), q));
            if (high < nyquist)
                filters.Add(Biquad.LowPass(rate, Hertz.FromHertz(high), q));
        }
        return [.. filters.Select(f => new BiquadRun(f))];
    }
}
