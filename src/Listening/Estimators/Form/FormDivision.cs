namespace Harkbook.Listening.Estimators.Form;

/// <summary>
/// Divides bars into sections so that the whole earns most: each section by how well it comes back elsewhere and holds together, each border by the change
/// at it, less what a section costs and what its length does; found by dynamic programming over all divisions (G. Sargent, F. Bimbot and E. Vincent,
/// "Estimating the structural segmentation of popular music pieces under regularity constraints", IEEE/ACM TASLP 25, 2017).
/// </summary>
internal sealed class FormDivision(BarLikeness alike, FormModel model)
{
    private const int Longest = 24, Shortest = 2;

    /// <summary>Bars to each side that a border's change is looked for in.</summary>
    private const int Near = 4;

    private readonly double[,] repeats = alike.Repeats(Longest);
    private readonly double[] novelty = alike.Novelty(Near);
    private readonly double usual = alike.Usual(), usualSound = alike.UsualSound();

    /// <summary>The first bar of each section.</summary>
    /// <param name="borders">Bars at which sections start for sure.</param>
    public List<int> Starts(IReadOnlyCollection<int> borders)
    {
        var (best, from) = (new double[alike.Bars + 1], new int[alike.Bars + 1]);
        for (var end = 1; end <= alike.Bars; end++)
        {
            best[end] = double.NegativeInfinity;
            for (var start = Math.Max(0, end - Longest); start < end; start++)
            {
                if (end - start < Shortest && !borders.Contains(end) && !borders.Contains(start) && alike.Bars >= Shortest)
                    continue;
                if (borders.Any(b => b > start && b < end) || double.IsNegativeInfinity(best[start]))
                    continue;
                var score = best[start] + Earned(start, end);
                if (score > best[end])
                    (best[end], from[end]) = (score, start);
            }
        }
        var starts = new List<int>();
        for (var end = alike.Bars; end > 0; end = from[end])
            starts.Insert(0, from[end]);
        return starts;
    }

    /// <summary>How much changes at a bar (0–1).</summary>
    public double Change(int bar) => novelty[bar];

    private double Earned(int start, int end)
    {
        var bars = end - start;
        return model.Repeats * bars * (repeats[start, bars] - usual) + model.Holds * bars * (alike.Held(start, end) - usualSound)
            + (start > 0 ? model.Changes * novelty[start] : 0) - model.Section - model.LengthCost(bars);
    }
}
