namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>Straight lines from knot to knot that pass given points most nearly: a linear spline fitted by least squares (de Boor 1978).</summary>
internal static class LinearSpline
{
    /// <summary>The lines' heights at the knots.</summary>
    /// <param name="knots">Rising; each has a point of its own, so that every height can be told.</param>
    /// <param name="points">Between the first knot and the last.</param>
    public static double[] Fit(int[] knots, IReadOnlyDictionary<int, double> points)
    {
        var count = knots.Length;
        var (diagonal, beside, sums) = (new double[count], new double[count], new double[count]);
        foreach (var (x, y) in points)
        {
            var (i, share) = Place(knots, x);
            diagonal[i] += (1 - share) * (1 - share);
            sums[i] += (1 - share) * y;
            if (share == 0)
                continue;
            diagonal[i + 1] += share * share;
            beside[i] += share * (1 - share);
            sums[i + 1] += share * y;
        }
        return Solve(diagonal, beside, sums);
    }

    public static double At(int[] knots, double[] heights, int x)
    {
        var (i, share) = Place(knots, x);
        return share == 0 ? heights[i] : heights[i] + share * (heights[i + 1] - heights[i]);
    }

    /// <summary>The knot at or before a place, and how much of the way to the next it lies.</summary>
    private static (int Knot, double Share) Place(int[] knots, int x)
    {
        var i = Array.FindLastIndex(knots, k => k <= x);
        return (i, knots[i] == x ? 0 : (x - knots[i]) / (double)(knots[i + 1] - knots[i]));
    }

    /// <summary>Solves a symmetric system with three diagonals by elimination downwards and substitution upwards.</summary>
    private static double[] Solve(double[] diagonal, double[] beside, double[] right)
    {
        for (var i = 1; i < diagonal.Length; i++)
        {
            var factor = beside[i - 1] / diagonal[i - 1];
            diagonal[i] -= factor * beside[i - 1];
            right[i] -= factor * right[i - 1];
        }
        for (var i = diagonal.Length - 1; i >= 0; i--)
            right[i] = (right[i] - (i + 1 < diagonal.Length ? beside[i] * right[i + 1] : 0)) / diagonal[i];
        return right;
    }
}
