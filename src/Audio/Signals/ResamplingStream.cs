using System.Runtime.InteropServices;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Brings one channel to another rate block by block, without delay: output sample n sounds at the time n/to.</summary>
public sealed class ResamplingStream
{
    private readonly ResamplingFilter filter;
    private readonly List<float> output = [];
    private float[] waiting;
    private int held;
    private int phase;
    private long taken;
    private long made;

    public ResamplingStream(SampleRate from, SampleRate to)
    {
        filter = new(from, to);
        waiting = new float[4 * filter.Half];
        held = filter.Half - 1;
    }

    /// <summary>Takes the next samples and returns those that are then certain; the span holds until the next call.</summary>
    public ReadOnlySpan<float> Push(ReadOnlySpan<float> input)
    {
        taken += input.Length;
        return Run(input, long.MaxValue);
    }

    /// <summary>Returns the last samples; all together the output holds input·to/from samples, rounded.</summary>
    public ReadOnlySpan<float> Finish() =>
        Run(new float[2 * filter.Half], (long)Math.Round((double)taken * filter.Up / filter.Down) - made);

    private ReadOnlySpan<float> Run(ReadOnlySpan<float> input, long most)
    {
        Hold(input);
        output.Clear();
        var start = 0;
        for (; start + 2 * filter.Half <= held && output.Count < most; phase %= filter.Up)
        {
            output.Add(filter.At(waiting.AsSpan(start, 2 * filter.Half), phase));
            phase += filter.Down;
            start += phase / filter.Up;
        }
        waiting.AsSpan(start, held - start).CopyTo(waiting);
        held -= start;
        made += output.Count;
        return CollectionsMarshal.AsSpan(output);
    }

    private void Hold(ReadOnlySpan<float> input)
    {
        if (held + input.Length > waiting.Length)
            Array.Resize(ref waiting, Math.Max(2 * waiting.Length, held + input.Length));
        input.CopyTo(waiting.AsSpan(held));
        held += input.Length;
    }
}
