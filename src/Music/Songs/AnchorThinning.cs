using System.Collections.Immutable;

namespace Harkbook.Music.Songs;

/// <summary>
/// Chooses the fewest bars to anchor so that straight lines between them keep every beat that is known within a tolerance: a shortest path over
/// bar starts, an edge wherever the line between two of them passes all beats in between (Imai and Iri 1988, polygonal approximation with
/// the fewest segments). Where a single bar strays further than that, its two ends are anchored and no more can be done.
/// </summary>
public static class AnchorThinning
{
    /// <summary>Indices of the chosen candidates, rising; the first and last candidate among them.</summary>
    /// <param name="candidates">Beats that may be anchored, rising: the bars' starts and the last bar's end.</param>
    /// <param name="weighs">Whether a beat is known (heard or tapped), so that the lines must pass it.</param>
    /// <param name="tolerance">In seconds.</param>
    public static ImmutableArray<int> Choose(ImmutableArray<double> times, IReadOnlyList<int> candidates, Func<int, bool> weighs, double tolerance)
    {
        if (candidates.Count == 0)
            return [];
        var steps = Enumerable.Repeat(int.MaxValue, candidates.Count).ToArray();
        var from = new int[candidates.Count];
        steps[0] = 0;
        for (var i = 0; i < candidates.Count; i++)
        {
            foreach (var j in Reachable(times, candidates, weighs, tolerance, i).Where(j => steps[i] + 1 < steps[j]))
                (steps[j], from[j]) = (steps[i] + 1, i);
        }
        var path = new Stack<int>();
        for (var at = candidates.Count - 1; at > 0; at = from[at])
            path.Push(at);
        path.Push(0);
        return [.. path];
    }

    /// <summary>Narrows the cone of slopes that pass every beat so far; later candidates inside it can be reached.</summary>
    private static IEnumerable<int> Reachable(ImmutableArray<double> times, IReadOnlyList<int> candidates, Func<int, bool> weighs, double tolerance, int i)
    {
        var (start, low, high) = (candidates[i], double.NegativeInfinity, double.PositiveInfinity);
        for (var j = i + 1; j < candidates.Count && low <= high; j++)
        {
            for (var beat = candidates[j - 1] + 1; beat < candidates[j]; beat++)
                Narrow(beat);
            var slope = (times[candidates[j]] - times[start]) / (candidates[j] - start);
            if (j == i + 1 || (slope >= low && slope <= high))
                yield return j;
            Narrow(candidates[j]);
        }

        void Narrow(int beat)
        {
            if (!weighs(beat))
                return;
            low = Math.Max(low, (times[beat] - tolerance - times[start]) / (beat - start));
            high = Math.Min(high, (times[beat] + tolerance - times[start]) / (beat - start));
        }
    }
}
