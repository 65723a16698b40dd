using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Evidence;

/// <summary>The frames between the first and the last clear sound.</summary>
internal readonly record struct SoundingSpan(int First, int Last)
{
    /// <summary>Ten minutes in frames.</summary>
    private const int Longest = 30_000;

    private const float Clear = 0.02f;

    /// <summary>Nothing for silence.</summary>
    /// <param name="sound">One channel at <see cref="PulseBands.Rate"/>.</param>
    public static SoundingSpan? Of(ISound sound)
    {
        var levels = Levels(sound);
        var loudest = levels.Length == 0 ? 0 : levels.Max();
        if (loudest < 1e-5f)
            return null;
        var first = Array.FindIndex(levels, l => l > Clear * loudest);
        var last = Array.FindLastIndex(levels, l => l > Clear * loudest);
        return new(Math.Max(0, first - 2), last);
    }

    /// <summary>The span in pieces of at most ten minutes, so that an hour takes no more memory than they do.</summary>
    public IEnumerable<SoundingSpan> Pieces()
    {
        for (var first = First; first <= Last; first += Longest)
            yield return new(first, Math.Min(Last, first + Longest - 1));
    }

    private static float[] Levels(ISound sound)
    {
        const int Block = 100 * PulseBands.HopSamples;
        var levels = new List<float>();
        for (var start = 0; start < sound.Length; start += Block)
            levels.AddRange(sound.Cut(start, Math.Min(Block, sound.Length - start)).Channels[0].Chunk(PulseBands.HopSamples)
                .Select(c => MathF.Sqrt(c.Sum(x => x * x) / c.Length)));
        return [.. levels];
    }
}
