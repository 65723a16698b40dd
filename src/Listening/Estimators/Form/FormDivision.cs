namespace Harkbook.Listening.Estimators.Form;

/// <summary>
/// Divides bars into sections so that the whole earns most: each section by how well it comes back elsewhere and holds together, each border by the change
/// at it, less what a section costs and what its length does; found by dynamic programming over all divisions (G. Sargent, F. Bimbot and E. Vincent,
/// "Estimating the structural segmentation of popular music pieces under regularity constraints", IEEE/ACM TASLP 25, 2017).
/// </summary>
internal sealed class FormDivision(BarLikeness alike, FormModel model)
{
    private const int Longest = 24;

    /// <summary>The fewest bars of a section, but where it is known that one starts.</summary>
    public const int Shortest = 4;

    /// <summary>An ending that isn't heard elsewhere may have so few bars; elsewhere is where it is so alike.</summary>
    private const int ShortestEnding = 2;

    private const double Elsewhere = 0.7;

    /// <summary>Four bars played twice in a row are one section rather than two.</summary>
    private const int Loop = 4;

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
                if (IsTooShort(start, end) && !borders.Contains(end) && !borders.Contains(start))
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

    private bool IsTooShort(int start, int end) => end - start < Shortest && end - start < alike.Bars
        && !(end == alike.Bars && end - start >= ShortestEnding && repeats[start, end - start] < Elsewhere);

    /// <summary>How alike a section is to the most alike other stretch; of a loop played twice, how alike its halves are to others.</summary>
    private double Repeated(int start, int bars) => bars != 2 * Loop ? repeats[start, bars]
        : Math.Max(repeats[start, bars], (repeats[start, Loop] + repeats[start + Loop, Loop]) / 2);

    /// <summary>The last section is as long as the record leaves it.</summary>
    private double Earned(int start, int end)
    {
        var bars = end - start;
        return model.Repeats * bars * (Repeated(start, bars) - usual) + model.Holds * bars * (alike.Held(start, end) - usualSound)
            + (start > 0 ? model.Changes * novelty[start] : 0) - model.Section - (end == alike.Bars ? 0 : model.LengthCost(bars));
    }
}
