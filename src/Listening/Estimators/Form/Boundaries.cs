namespace Harkbook.Listening.Estimators.Form;

/// <summary>Where sections begin.</summary>
internal static class Boundaries
{
    private const double Least = 0.12;
    private const double RepeatAlike = 0.7;

    /// <summary>How strongly each bar looks like the start of a section; shape (bars).</summary>
    public static double[] Novelty(BarLikeness alike, int fewestBars)
    {
        var (near, wide) = (alike.Novelty(fewestBars), alike.Novelty(2 * fewestBars));
        var repeats = RepeatEdges(alike, fewestBars);
        return [.. near.Select((n, bar) => 0.5 * n + 0.5 * wide[bar] + 0.15 * repeats[bar])];
    }

    /// <summary>The tops of the novelty, the strongest first, none nearer to another or to the ends than the shortest section.</summary>
    public static List<int> Pick(double[] novelty, int fewestBars)
    {
        var starts = new List<int> { 0 };
        var spread = Math.Sqrt(novelty.Average(x => x * x));
        foreach (var bar in Enumerable.Range(0, novelty.Length).OrderByDescending(b => novelty[b]))
        {
            var strong = novelty[bar] > Math.Max(Least, spread);
            if (strong && bar + fewestBars <= novelty.Length && starts.All(s => Math.Abs(s - bar) >= fewestBars))
                starts.Add(bar);
        }
        starts.Sort();
        return starts;
    }

    /// <summary>The share of the other places in the music at which a repeat of at least the shortest section begins or ends at each bar, at most 1.</summary>
    private static double[] RepeatEdges(BarLikeness alike, int fewestBars)
    {
        var edges = new double[alike.Bars + 1];
        for (var lag = fewestBars; lag < alike.Bars; lag++)
        {
            var run = 0;
            for (var bar = 0; bar + lag <= alike.Bars; bar++)
            {
                if (bar + lag < alike.Bars && alike[bar, bar + lag] > RepeatAlike)
                {
                    run++;
                    continue;
                }
                if (run >= fewestBars && run <= lag)
                    Mark(edges, bar - run, bar, lag);
                run = 0;
            }
        }
        return [.. edges.Take(alike.Bars).Select(e => Math.Min(1, e / 2))];
    }

    private static void Mark(double[] edges, int start, int end, int lag)
    {
        foreach (var bar in (int[])[start, end, start + lag, end + lag])
            edges[bar]++;
    }
}
