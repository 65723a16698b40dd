namespace Harkbook.Listening.Evaluation;

/// <summary>Tempo agreement (McKinney, Moelants, Davies &amp; Klapuri, JNMR 2007). Tempi in beats a minute.</summary>
public static class TempoScore
{
    /// <summary>Whether an estimate lies within a share of the true tempo.</summary>
    public static bool Within(double reference, double estimated, double tolerance) =>
        Math.Abs(estimated - reference) <= tolerance * reference;

    /// <summary>The same, allowing double, half, triple and a third of the true tempo.</summary>
    public static bool WithinAnOctave(double reference, double estimated, double tolerance = 0.04) =>
        new[] { 1, 2, 0.5, 3, 1 / 3.0 }.Any(level => Within(reference * level, estimated, tolerance));

    /// <summary>
    /// The P-score of the MIREX tempo task for two reference tempi, of which the first weighs <paramref name="weight"/>:
    /// each counts when one of the two estimates lies within 8%.
    /// </summary>
    public static double PScore((double First, double Second) reference, double weight, (double First, double Second) estimated)
    {
        return weight * Hit(reference.First) + (1 - weight) * Hit(reference.Second);

        double Hit(double tempo) => Within(tempo, estimated.First, 0.08) || Within(tempo, estimated.Second, 0.08) ? 1 : 0;
    }
}
