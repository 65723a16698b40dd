namespace Harkbook.Listening.Estimators;

/// <summary>
/// Makes estimates no surer than they are right: a straight line through log odds (J. Platt, "Probabilistic outputs for support vector machines",
/// in Advances in Large Margin Classifiers, 2000), fitted on material that doesn't judge it (docs/listening.md names it).
/// </summary>
internal readonly record struct Calibration(double Slope, double Offset)
{
    /// <summary>The same candidates in the same order, the first never surer than it was; what it loses the others gain by their shares.</summary>
    public Ranked<T> Of<T>(Ranked<T> estimate)
    {
        var first = LogOdds.Chance(Slope * LogOdds.Of(estimate.Confidence) + Offset);
        if (first >= estimate.Confidence)
            return estimate;
        var others = (1 - first) / Math.Max(1e-9, 1 - estimate.Confidence);
        return new([.. estimate.Candidates.Select((c, i) => c with { Confidence = i == 0 ? first : Math.Min(first, others * c.Confidence) })]);
    }
}
