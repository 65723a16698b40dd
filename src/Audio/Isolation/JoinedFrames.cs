using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Isolation;

/// <summary>Adds the frames of one channel up again, each after the one before, and gives every sample out as soon as no later frame touches it.</summary>
/// <param name="length">Samples of the sound.</param>
internal sealed class JoinedFrames(Frames frames, int length)
{
    private readonly float[] sum = new float[frames.Size];
    private readonly List<float> ready = [];
    private int index;

    public void Add(Bin[] spectrum)
    {
        var frame = frames.Back(spectrum);
        for (var n = 0; n < frame.Length; n++)
            sum[n] += frame[n];
        var start = frames.StartOf(index++);
        var (from, to) = (Math.Clamp(-start, 0, frames.Hop), Math.Clamp(length - start, 0, frames.Hop));
        if (from < to)
            ready.AddRange(sum.AsSpan(from..to));
        sum.AsSpan(frames.Hop).CopyTo(sum);
        sum.AsSpan(frames.Size - frames.Hop).Clear();
    }

    /// <summary>The samples since the last call.</summary>
    public float[] Take()
    {
        float[] taken = [.. ready];
        ready.Clear();
        return taken;
    }
}
