using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>Several strings on one body.</summary>
/// <param name="stiffness">By string; empty where nothing is said but the set's.</param>
public sealed class StringInstrument(SampleRate rate, StringSet set, int seed, ImmutableArray<StringStiffness> stiffness = default)
{
    /// <summary>
    /// Sounds every string's notes (any number of strings) as one channel. A full stroke over six strings stays within ±1.
    /// </summary>
    public Signal Sound(IReadOnlyList<IReadOnlyList<Pluck>> strings, Seconds length, CancellationToken ct = default) =>
        Blocks(strings, length, ct).Gathered(rate);

    /// <summary>The same a block at a time, in the room that the longest notes need.</summary>
    public IEnumerable<float[]> Blocks(IReadOnlyList<IReadOnlyList<Pluck>> strings, Seconds length, CancellationToken ct)
    {
        var sounding = strings.Select((plucks, i) => new PluckedString(rate, set, seed * 31 + i, Of(i)).Blocks(plucks, length, ct).GetEnumerator()).ToArray();
        var body = new GuitarBody(rate);
        for (var left = SynthesisRate.Required(rate).SamplesIn(length); left > 0; left -= NoteBuffer.BlockLength)
        {
            var sum = new float[Math.Min(NoteBuffer.BlockLength, left)];
            foreach (var one in sounding)
                Add(one, sum);
            for (var n = 0; n < sum.Length; n++)
                sum[n] = (float)(0.06 * body.Next(sum[n]));
            yield return sum;
        }
    }

    private StringStiffness? Of(int stringIndex) => stiffness.IsDefault || stringIndex >= stiffness.Length ? null : stiffness[stringIndex];

    private static void Add(IEnumerator<float[]> one, float[] sum)
    {
        one.MoveNext();
        for (var n = 0; n < sum.Length; n++)
            sum[n] += one.Current[n];
    }
}
