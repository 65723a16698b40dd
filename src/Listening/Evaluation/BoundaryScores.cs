namespace Harkbook.Listening.Evaluation;

/// <summary>Section boundaries found within a window (Turnbull et al., ISMIR 2007; mir_eval's conventions). Times in seconds.</summary>
public static class BoundaryScores
{
    /// <summary>The estimate is first fitted to the reference's span, from 0 s to its last boundary; both ends count as boundaries.</summary>
    /// <param name="window">0.5 s for exact boundaries, 3 s for lenient ones.</param>
    /// <param name="trim">Leave the first and the last boundary out, which are given away for nothing.</param>
    public static FScore FMeasure(IEnumerable<double> reference, IEnumerable<double> estimated, double window, bool trim = false)
    {
        var truth = reference.Append(0).ToArray();
        var end = truth.Max();
        return Matching.Events(Prepared(truth), Prepared(estimated.Where(b => b > 0 && b < end).Append(0).Append(end)), window);

        double[] Prepared(IEnumerable<double> boundaries)
        {
            var sorted = boundaries.Distinct().Order().ToArray();
            return trim ? sorted.Length > 2 ? sorted[1..^1] : [] : sorted;
        }
    }
}
