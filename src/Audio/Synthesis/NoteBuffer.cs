namespace Harkbook.Audio.Synthesis;

/// <summary>
/// A sound that notes are added to in order of time, and that is taken a block at a time as soon as no later note reaches into the
/// block: so a long piece is sounded in the room that its longest note needs.
/// </summary>
internal sealed class NoteBuffer(int length)
{
    public const int BlockLength = 1 << 14;

    private float[] pending = new float[2 * BlockLength];
    private int origin;

    /// <summary>Samples of the whole sound.</summary>
    public int Length => length;

    /// <summary>
    /// Adds notes one after another, each with the sample that it starts at, and gives the sound in blocks, the last of which is as
    /// short as is left. Notes are taken in the order given, so that noise is drawn in that order.
    /// </summary>
    /// <param name="sound">Adds a note to <see cref="Reach"/> from its start on.</param>
    public static IEnumerable<float[]> Blocks<T>(int length, IReadOnlyList<(int Start, T Note)> notes, Action<T, NoteBuffer> sound, CancellationToken ct)
    {
        var buffer = new NoteBuffer(length);
        var earliest = EarliestFrom([.. notes.Select(n => n.Start)]);
        for (var i = 0; i < notes.Count; i++)
        {
            ct.ThrowIfCancellationRequested();
            while (buffer.origin < length && buffer.origin + BlockLength <= earliest[i])
                yield return buffer.Take();
            sound(notes[i].Note, buffer);
        }
        while (buffer.origin < length)
            yield return buffer.Take();
    }

    /// <summary>The samples from one to before another of the whole sound, to be added to. What lies beyond the sound's ends is left out.</summary>
    public Span<float> Reach(int from, int to)
    {
        (from, to) = (Math.Clamp(from, origin, length), Math.Clamp(to, origin, length));
        if (to - origin > pending.Length)
            Array.Resize(ref pending, Math.Max(2 * pending.Length, to - origin));
        return pending.AsSpan(from - origin, Math.Max(0, to - from));
    }

    private float[] Take()
    {
        var block = pending[..Math.Min(BlockLength, length - origin)];
        pending.AsSpan(BlockLength).CopyTo(pending);
        pending.AsSpan(pending.Length - BlockLength).Clear();
        origin += block.Length;
        return block;
    }

    /// <summary>For each note the earliest start of it and those after it.</summary>
    private static int[] EarliestFrom(int[] starts)
    {
        for (var i = starts.Length - 2; i >= 0; i--)
            starts[i] = Math.Min(starts[i], starts[i + 1]);
        return starts;
    }
}
