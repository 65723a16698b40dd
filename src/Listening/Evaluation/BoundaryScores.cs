namespace Harkbook.Listening.Evaluation;

/// <summary>Section boundaries found within a window (Turnbull et al., ISMIR 2007; mir_eval's conventions). Times in seconds.</summary>
public static class BoundaryScores
{
    /// <param name="window">0.5 s for exact boundaries, 3 s for lenient ones.</param>
    /// <param name="trim">Leave the first and the last boundary out, which are given away for nothing.</param>
    public static FScore FMeasure(IEnumerable<double> reference, IEnumerable<double> estimated, double window, bool trim = false)
    {
        return Matching.Events(Prepared(reference), Prepared(estimated), window);

        double[] Prepared(IEnumerable<double> boundaries)
        {
            var sorted = boundaries.Distinct().Order().ToArray();
            return trim ? sorted.Length > 2 ? sorted[1..^1] : [] : sorted;
        }
    }
}
