using System.Collections.Immutable;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>What each setting costs after each other one, and the paths through all of them.</summary>
internal sealed class CostTable
{
    private readonly double[] first;
    private readonly double[,] next;

    public CostTable(ImmutableArray<GuitarSetting> settings, GuitarSetting start, RetuningCost costs)
    {
        Count = settings.Length;
        first = [.. settings.Select(s => costs.Between(start, s))];
        next = new double[Count, Count];
        for (var i = 0; i < Count; i++)
            for (var j = 0; j < Count; j++)
                next[i, j] = costs.Between(settings[i], settings[j]);
    }

    private int Count { get; }

    public double Of(ImmutableArray<int> order) =>
        order.Select((setting, i) => i == 0 ? first[setting] : next[order[i - 1], setting]).Sum();

    /// <summary>The cheapest path, by dynamic programming over subsets (Held and Karp 1962).</summary>
    public ImmutableArray<int> Best()
    {
        if (Count == 0)
            return [];
        var (cost, before) = (new double[1 << Count, Count], new int[1 << Count, Count]);
        for (var visited = 1; visited < 1 << Count; visited++)
            for (var last = 0; last < Count; last++)
                (cost[visited, last], before[visited, last]) = Cheapest(cost, visited, last);
        return Walked(before, Enumerable.Range(0, Count).MinBy(last => cost[(1 << Count) - 1, last]));
    }

    /// <summary>The nearest next setting each time, then any stretch turned round while that is cheaper.</summary>
    public ImmutableArray<int> Good()
    {
        var order = new List<int>();
        while (order.Count < Count)
            order.Add(Enumerable.Range(0, Count).Except(order).MinBy(s => order.Count == 0 ? first[s] : next[order[^1], s]));
        for (var improved = true; improved;)
        {
            improved = false;
            for (var from = 0; from < Count; from++)
                for (var length = 2; from + length <= Count; length++)
                    improved |= TurnIfCheaper(order, from, length);
        }
        return [.. order];
    }

    private bool TurnIfCheaper(List<int> order, int from, int length)
    {
        var before = Of([.. order]);
        order.Reverse(from, length);
        if (Of([.. order]) < before - 1e-9)
            return true;
        order.Reverse(from, length);
        return false;
    }

    private (double Cost, int Before) Cheapest(double[,] cost, int visited, int last)
    {
        if ((visited & (1 << last)) == 0)
            return (double.PositiveInfinity, -1);
        var rest = visited & ~(1 << last);
        if (rest == 0)
            return (first[last], -1);
        var before = Enumerable.Range(0, Count).Where(b => (rest & (1 << b)) != 0).MinBy(b => cost[rest, b] + next[b, last]);
        return (cost[rest, before] + next[before, last], before);
    }

    private ImmutableArray<int> Walked(int[,] before, int last)
    {
        var order = new List<int>();
        for (var visited = (1 << Count) - 1; last >= 0;)
        {
            order.Add(last);
            (visited, last) = (visited & ~(1 << last), before[visited, last]);
        }
        return [.. Enumerable.Reverse(order)];
    }
}
