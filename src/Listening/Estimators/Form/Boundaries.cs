namespace Harkbook.Listening.Estimators.Form;

/// <summary>Where sections begin.</summary>
internal static class Boundaries
{
    private const double Least = 0.12;
    private const double RepeatAlike = 0.7;

    /// <summary>The share of the usual novelty that is enough where the same music has a boundary elsewhere.</summary>
    private const double EnoughInRepeat = 0.3;

    /// <summary>An ending that was not heard before may be shorter than other sections.</summary>
    private const int FewestBarsOfEnding = 2;

    /// <summary>How strongly each bar looks like the start of a section; shape (bars).</summary>
    public static double[] Novelty(BarLikeness alike, int fewestBars)
    {
        var (near, wide) = (alike.Novelty(fewestBars), alike.Novelty(2 * fewestBars));
        var repeats = RepeatEdges(alike, fewestBars);
        return [.. near.Select((n, bar) => 0.5 * n + 0.5 * wide[bar] + 0.15 * repeats[bar])];
    }

    /// <summary>The tops of the novelty, the strongest first, none nearer to another or to the ends than the shortest section.</summary>
    public static List<int> Pick(double[] novelty, BarLikeness alike, int fewestBars)
    {
        var starts = new List<int> { 0 };
        var spread = Math.Sqrt(novelty.Average(x => x * x));
        foreach (var bar in Enumerable.Range(0, novelty.Length).OrderByDescending(b => novelty[b]))
        {
            var strong = novelty[bar] > Math.Max(Least, spread);
            if (strong && (bar + fewestBars <= novelty.Length || IsNewEnding(alike, bar)) && starts.All(s => Math.Abs(s - bar) >= fewestBars))
                starts.Add(bar);
        }
        starts.Sort();
        return starts;
    }

    private static bool IsNewEnding(BarLikeness alike, int bar)
    {
        var length = alike.Bars - bar;
        return length >= FewestBarsOfEnding
            && Enumerable.Range(0, Math.Max(0, bar - length + 1)).All(b => alike.OfStretches(b, b + length, bar, alike.Bars) < RepeatAlike);
    }

    /// <summary>
    /// Adds the boundaries that a repeat shows: where a stretch of at least the shortest section before and after a boundary comes back,
    /// the place in the other playing is a boundary too, unless nothing changes there.
    /// </summary>
    public static List<int> WithRepeats(List<int> starts, double[] novelty, BarLikeness alike, int fewestBars)
    {
        var all = new List<int>(starts);
        foreach (var start in starts.Where(s => s >= fewestBars && s + fewestBars <= alike.Bars))
        {
            foreach (var bar in Enumerable.Range(fewestBars, Math.Max(0, alike.Bars - 2 * fewestBars + 1)).OrderByDescending(b => novelty[b]))
            {
                var same = alike.OfStretches(start - fewestBars, start + fewestBars, bar - fewestBars, bar + fewestBars) >= RepeatAlike;
                if (same && novelty[bar] > EnoughInRepeat * Least && all.All(s => Math.Abs(s - bar) >= fewestBars))
                    all.Add(bar);
            }
        }
        all.Sort();
        return all;
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
