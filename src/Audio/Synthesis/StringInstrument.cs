using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis;

/// <summary>Several strings on one body.</summary>
public sealed class StringInstrument(SampleRate rate, StringSet set, int seed)
{
    /// <summary>
    /// Sounds every string's notes (any number of strings) as one channel. A full stroke over six strings stays within ±1.
    /// </summary>
    public Signal Sound(IReadOnlyList<IReadOnlyList<Pluck>> strings, Seconds length, CancellationToken ct = default)
    {
        var sum = new float[SynthesisRate.Required(rate).SamplesIn(length)];
        for (var i = 0; i < strings.Count; i++)
        {
            ct.ThrowIfCancellationRequested();
            var one = new PluckedString(rate, set, seed * 31 + i).Sound(strings[i], length).Channels[0];
            for (var n = 0; n < sum.Length; n++)
                sum[n] += one[n];
        }
        var body = new GuitarBody(rate);
        for (var n = 0; n < sum.Length; n++)
            sum[n] = (float)(0.06 * body.Next(sum[n]));
        return new(rate, sum);
    }
}
