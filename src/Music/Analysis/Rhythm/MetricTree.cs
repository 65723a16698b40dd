using System.Collections.Immutable;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>
/// A bar split by its meter until nothing starts inside a part: half bars, beats, divisions, their halves; a beat of a simple
/// meter into thirds where its starts are thirds. H. C. Longuet-Higgins and C. Lee, "The rhythmic interpretation of
/// monophonic music", Music Perception 1(4), 1984.
/// </summary>
public static class MetricTree
{
    private const int Deepest = 8;

    /// <param name="onsets">Felt beats from the bar's start; those outside the bar are left out.</param>
    public static ImmutableArray<RhythmUnit> Units(Meter meter, IEnumerable<Beats> onsets)
    {
        var inside = onsets.Where(o => o >= Beats.Zero && o < meter.BarLength).ToHashSet();
        return [.. Split(new Node(Beats.Zero, meter.BarLength, 0, 0), meter, inside)];
    }

    private readonly record struct Node(Beats Start, Beats Length, int Depth, int Weight);

    private static IEnumerable<RhythmUnit> Split(Node node, Meter meter, HashSet<Beats> onsets)
    {
        var within = onsets.Where(o => o > node.Start && o < node.Start + node.Length).ToArray();
        if (within.Length == 0 || node.Depth == Deepest)
            return [new(node.Start, node.Weight, onsets.Contains(node.Start))];
        var parts = Parts(node, meter, within);
        var length = node.Length / parts;
        return Enumerable.Range(0, parts)
            .SelectMany(i => Split(new(node.Start + length * i, length, node.Depth + 1, i == 0 ? node.Weight : -node.Depth - 1), meter, onsets));
    }

    private static int Parts(Node node, Meter meter, Beats[] within)
    {
        if (node.Length > Beats.Whole(1))
            return meter.BeatsPerBar == 4 ? 2 : meter.BeatsPerBar;
        if (node.Length < Beats.Whole(1))
            return 2;
        return meter.IsCompound || within.All(o => (o - node.Start).Denominator % 3 == 0) ? 3 : 2;
    }
}
