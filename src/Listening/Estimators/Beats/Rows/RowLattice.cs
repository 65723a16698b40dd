using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// Rows of beats and bars over a <see cref="RowGraph"/>: the bar-pointer model (F. Krebs, S. Böck and G. Widmer, "An efficient state-space model
/// for joint tempo and meter tracking", ISMIR 2015) as a semi-Markov chain, whose states are steps × places in the bar. A row may start and end
/// anywhere. Summed by the largest it gives the best row and max-marginals, by log-sums posteriors (forward–backward).
/// </summary>
internal sealed class RowLattice<TSum> where TSum : struct, ISummation
{
    private const double Negligible = 30;

    private readonly RowGraph graph;
    private readonly BarPlaces bars;
    private readonly RowCosts costs;
    private readonly double[] scores;
    private readonly int mustStartBy;
    private readonly int mayEndFrom;
    private readonly double[]? steady;
    private readonly double[] behind;
    private readonly double[] ahead;
    private readonly int places;
    private readonly double[,] changes;

    /// <param name="scores">Of each step at each place; shape (steps × places).</param>
    /// <param name="mustStartBy">The last moment that a row may start at.</param>
    /// <param name="mayEndFrom">The first moment that a row may end at.</param>
    /// <param name="steady">At each moment, what a jump of the beat and an irregular bar cost more there; null for nothing.</param>
    public RowLattice(RowGraph graph, BarPlaces bars, RowCosts costs, double[] scores, int mustStartBy = int.MaxValue, int mayEndFrom = 0,
        double[]? steady = null)
    {
        (this.graph, this.bars, this.costs, this.scores, places) = (graph, bars, costs, scores, bars.Count);
        (this.mustStartBy, this.mayEndFrom, this.steady) = (mustStartBy, mayEndFrom, steady);
        (behind, ahead) = (new double[scores.Length], new double[scores.Length]);
        changes = Changes(graph, costs);
        Forward();
        Backward();
        Total = double.NegativeInfinity;
        for (var s = 0; s < graph.Steps; s++)
        {
            for (var p = 0; p < places && graph.End(s) >= mayEndFrom; p++)
                Total = TSum.Of(Total, behind[s * places + p]);
        }
    }

    /// <summary>The score of all rows.</summary>
    public double Total { get; }

    /// <summary>The score of all rows through a step at a place.</summary>
    public double Through(int step, int place) => behind[step * places + place] + ahead[step * places + place];

    /// <summary>The score of all rows that go from one step to the next by an irregular bar.</summary>
    public double FollowingIrregularly(int step, int before)
    {
        var total = double.NegativeInfinity;
        var from = TSum.Of(behind.AsSpan(before * places, places)) - Change(before, step) - Bar(step);
        foreach (var d in bars.Downbeats)
            total = TSum.Of(total, from + scores[step * places + d] + ahead[step * places + d]);
        return total;
    }

    /// <summary>The score of all rows that go from one step to the next.</summary>
    public double Following(int step, int before)
    {
        var (total, change) = (double.NegativeInfinity, Change(before, step));
        for (var p = 0; p < places; p++)
            total = TSum.Of(total, behind[before * places + bars.Before[p]] - change + scores[step * places + p] + ahead[step * places + p]);
        return bars.Downbeats.Length == 0 ? total : TSum.Of(total, FollowingIrregularly(step, before));
    }

    /// <summary>The best row, as pairs of a step and a place, in order; of use where rows are summed by the largest.</summary>
    public List<(int Step, int Place)> Best()
    {
        var (step, place, top) = (-1, 0, double.NegativeInfinity);
        for (var s = 0; s < graph.Steps; s++)
        {
            for (var p = 0; p < places && graph.End(s) >= mayEndFrom; p++)
            {
                if (behind[s * places + p] > top)
                    (step, place, top) = (s, p, behind[s * places + p]);
            }
        }
        var row = new List<(int, int)>();
        for (; step >= 0; (step, place) = Source(step, place))
            row.Add((step, place));
        row.Reverse();
        return row;
    }

    /// <summary>The best step before and its place; (−1, 0) before a row's first.</summary>
    public (int Step, int Place) Source(int step, int place)
    {
        var best = (Step: -1, Place: 0, Score: double.NegativeInfinity);
        var isDownbeat = Array.IndexOf(bars.Downbeats, place) >= 0;
        foreach (var before in Before(step))
        {
            var change = Change(before, step);
            for (var q = 0; q < places; q++)
            {
                if (q != bars.Before[place] && !isDownbeat)
                    continue;
                var score = behind[before * places + q] - change - (q == bars.Before[place] ? 0 : Bar(step));
                if (score > best.Score)
                    best = (before, q, score);
            }
        }
        return (best.Step, best.Place);
    }

    /// <summary>For each step the one before it and the one after it on the best row through it, places left out; −1 for none.</summary>
    public (int[] Before, int[] After) Neighbours()
    {
        var (back, on, earned) = (new int[graph.Steps], new int[graph.Steps], new double[graph.Steps]);
        Array.Fill(on, -1);
        Array.Fill(earned, double.NegativeInfinity);
        for (var s = 0; s < graph.Steps; s++)
        {
            var (best, top) = (-1, double.NegativeInfinity);
            foreach (var b in Before(s))
            {
                var change = Change(b, s);
                if (behind[b * places] - change > top)
                    (best, top) = (b, behind[b * places] - change);
                if (scores[s * places] + ahead[s * places] - change > earned[b])
                    (on[b], earned[b]) = (s, scores[s * places] + ahead[s * places] - change);
            }
            back[s] = best;
        }
        return (back, on);
    }

    private static double[,] Changes(RowGraph graph, RowCosts costs)
    {
        var count = graph.Longest - graph.Shortest + 1;
        var table = new double[count, count];
        for (var b = 0; b < count; b++)
        {
            for (var a = 0; a < count; a++)
                table[b, a] = costs.Change(graph.Shortest + b, graph.Shortest + a);
        }
        return table;
    }

    private double Change(int before, int step)
    {
        var (b, a) = (graph.Interval(before), graph.Interval(step));
        if (b == 0 || a == 0)
            return 0;
        var change = changes[b - graph.Shortest, a - graph.Shortest];
        return steady is not null && RowCosts.IsJump(b, a) ? change + steady[graph.Start(step)] : change;
    }

    /// <summary>What an irregular bar costs that starts on a step's beat.</summary>
    private double Bar(int step) => steady is null ? costs.Bar : costs.Bar + steady[graph.End(step)];

    private IEnumerable<int> Before(int step)
    {
        var (from, to) = graph.Before(step);
        for (var s = from; s < to; s++)
            yield return s;
        if (graph.Start(step) is >= 0 and var start)
            yield return graph.FirstAt(start);
    }

    private void Forward()
    {
        Span<double> arrived = stackalloc double[places];
        for (var s = 0; s < graph.Steps; s++)
        {
            var here = behind.AsSpan(s * places, places);
            scores.AsSpan(s * places, places).CopyTo(here);
            if (graph.Start(s) < 0)
            {
                if (graph.End(s) > mustStartBy)
                    here.Fill(double.NegativeInfinity);
                continue;
            }
            Arrive(s, arrived);
            var cut = bars.Downbeats.Length == 0 ? 0 : TSum.Of(arrived) - Bar(s);
            for (var p = 0; p < places; p++)
                here[p] += arrived[bars.Before[p]];
            foreach (var d in bars.Downbeats)
                here[d] = TSum.Of(here[d], scores[s * places + d] + cut);
        }
    }

    /// <summary>For every place, all rows that a step may come after.</summary>
    private void Arrive(int step, Span<double> into)
    {
        into.Fill(double.NegativeInfinity);
        var (from, to) = graph.Before(step);
        for (var s = from; s < to; s++)
            Join(behind.AsSpan(s * places, places), Change(s, step), into);
        Join(behind.AsSpan(graph.FirstAt(graph.Start(step)) * places, places), 0, into);
    }

    private static void Join(ReadOnlySpan<double> row, double cost, Span<double> into)
    {
        for (var p = 0; p < into.Length; p++)
        {
            // What is so much less adds nothing to a sum of floating-point numbers that anybody would see.
            if (row[p] - cost > into[p] - Negligible)
                into[p] = TSum.Of(into[p], row[p] - cost);
        }
    }

    private void Backward()
    {
        ahead.AsSpan().Fill(double.NegativeInfinity);
        Span<double> earned = stackalloc double[places];
        Span<double> onward = stackalloc double[places];
        for (var s = graph.Steps - 1; s >= 0; s--)
        {
            var here = ahead.AsSpan(s * places, places);
            for (var p = 0; p < places; p++)
            {
                here[p] = graph.End(s) >= mayEndFrom ? TSum.Of(here[p], 0) : here[p];
                earned[p] = here[p] + scores[s * places + p];
            }
            if (graph.Start(s) < 0)
                continue;
            var cut = double.NegativeInfinity;
            foreach (var d in bars.Downbeats)
                cut = TSum.Of(cut, earned[d] - Bar(s));
            for (var p = 0; p < places; p++)
                onward[p] = TSum.Of(earned[bars.After[p]], cut);
            var (from, to) = graph.Before(s);
            for (var b = from; b < to; b++)
                Join(onward, Change(b, s), ahead.AsSpan(b * places, places));
            Join(onward, 0, ahead.AsSpan(graph.FirstAt(graph.Start(s)) * places, places));
        }
    }
}
