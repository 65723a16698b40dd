using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Sound that comes a block at a time, each an array a channel.</summary>
public static class SoundBlocks
{
    /// <summary>All blocks in memory.</summary>
    /// <param name="channels">What the sound has if no block comes.</param>
    public static Signal Gathered(this IEnumerable<float[][]> blocks, SampleRate rate, int channels)
    {
        float[][][] all = [.. blocks];
        return new(rate, [.. Enumerable.Range(0, channels).Select(c => Joined(all.Select(b => b[c])))]);
    }

    /// <summary>The same of one channel.</summary>
    public static Signal Gathered(this IEnumerable<float[]> blocks, SampleRate rate) => new(rate, Joined(blocks));

    private static float[] Joined(IEnumerable<float[]> blocks)
    {
        float[][] all = [.. blocks];
        var joined = new float[all.Sum(b => b.Length)];
        var at = 0;
        foreach (var block in all)
        {
            block.CopyTo(joined, at);
            at += block.Length;
        }
        return joined;
    }
}
