using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>A pitch that something other than a struck string holds for a while: cells of frames that follow each other.</summary>
/// <param name="Midi">The semitone.</param>
/// <param name="First">The first frame.</param>
/// <param name="Cells">One a frame; null where it was lost for a moment.</param>
/// <param name="HasOnset">Whether a start was heard, not only that it sounds.</param>
internal sealed record LineStretch(int Midi, int First, List<LineCell?> Cells, bool HasOnset)
{
    public int Length => Cells.Count;

    public int End => First + Length;

    /// <summary>The mean chance of each kind.</summary>
    public KindShares Kinds { get; } = Cells.Aggregate(default(KindShares), (sum, c) => sum + (c?.Kinds ?? default)) * (1f / Math.Max(1, Cells.Count));

    /// <summary>The mean chance that a line sounds.</summary>
    public float Chance => Math.Min(1, Kinds.Sum);

    /// <summary>The median level of its first third of a second, in decibels.</summary>
    public float Level { get; } = Median([.. Cells.Take(30).OfType<LineCell>().Select(c => c.Level)]);

    /// <summary>The median of its last two thirds, where the pitch has settled: semitones above <see cref="Midi"/>.</summary>
    public float Off { get; } = Median([.. Cells.Skip(Cells.Count / 3).OfType<LineCell>().Select(c => c.Off)]);

    public int Overlap(LineStretch other) => Math.Min(End, other.End) - Math.Max(First, other.First);

    private static float Median(float[] values)
    {
        Array.Sort(values);
        return values.Length == 0 ? 0 : values[values.Length / 2];
    }
}
