namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How far each way to hear the beat agrees with all the others, weighed by the shares they are believed by: the F-measure that its
/// beats are expected to have. The one that agrees best errs least, also where the beat and its half are believed about equally.
/// </summary>
internal static class Agreement
{
    /// <summary>The tolerance of the beat F-measure (S. Dixon, "Evaluation of the audio beat tracking system BeatRoot", JNMR 36, 2007).</summary>
    private const double Tolerance = 0.07;

    private const double Negligible = 0.01;

    /// <summary>Every grid with its expected F-measure, 0 to 1, the greatest first.</summary>
    public static List<(BeatGrid Grid, double Expected)> Rank(IReadOnlyList<BeatGrid> grids, double[] shares)
    {
        var likely = grids.Zip(shares, (grid, share) => (Grid: grid, Share: share)).Where(g => g.Share > Negligible).ToList();
        var known = likely.Sum(g => g.Share);
        return [.. grids
            .Select(grid => (grid, likely.Sum(other => other.Share * Of(grid.Times, other.Grid.Times)) / known))
            .OrderByDescending(g => g.Item2)];
    }

    /// <summary>The F-measure of one row of beats against another; 0 to 1.</summary>
    public static double Of(double[] a, double[] b)
    {
        int i = 0, j = 0, hits = 0;
        while (i < a.Length && j < b.Length)
        {
            var apart = b[j] - a[i];
            hits += Math.Abs(apart) <= Tolerance ? 1 : 0;
            i += apart >= -Tolerance ? 1 : 0;
            j += apart <= Tolerance ? 1 : 0;
        }
        return 2.0 * hits / Math.Max(1, a.Length + b.Length);
    }
}
