namespace Harkbook.Listening.Estimators;

/// <summary>
/// Makes estimates as sure as they are right: a straight line through log odds (J. Platt, "Probabilistic outputs for support vector machines",
/// in Advances in Large Margin Classifiers, 2000), fitted on material that doesn't judge it (docs/listening.md names it).
/// </summary>
internal readonly record struct Calibration(double Slope, double Offset)
{
    /// <summary>
    /// The same candidates in the same order. The first becomes as sure as the line says, but never less sure than the second; what it loses or
    /// gains the others share by what they had, so that the sum of all and "something else" stays 1.
    /// </summary>
    public Distribution<T> Of<T>(Distribution<T> estimate)
    {
        var doubt = Math.Max(1e-9, 1 - estimate.Confidence);
        var second = estimate.Candidates.Length < 2 ? 0 : estimate.Candidates[1].Confidence / doubt;
        var first = Math.Max(LogOdds.Chance(Slope * LogOdds.Of(estimate.Confidence) + Offset), second / (1 + second));
        return new([.. estimate.Candidates.Select((c, i) => c with { Confidence = i == 0 ? first : Math.Min(first, (1 - first) / doubt * c.Confidence) })]);
    }
}
