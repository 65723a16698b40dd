namespace Harkbook.Training.Harmony;

/// <summary>
/// The straight line through log-odds that makes told confidences as right as they are told (J. Platt, "Probabilistic outputs for support vector
/// machines", in Advances in Large Margin Classifiers, 2000): Newton's method, halved where it would make things worse.
/// </summary>
internal static class CalibrationFit
{
    private const double Least = 1e-4;

    public static (double Slope, double Offset) Fit(IReadOnlyList<Judged> judged)
    {
        var (slope, offset) = (1.0, 0.0);
        for (var step = 0; step < 50; step++)
        {
            var (ga, gb, haa, hab, hbb) = Derivatives(judged, slope, offset);
            var det = haa * hbb - hab * hab;
            var (da, db) = ((hbb * ga - hab * gb) / det, (haa * gb - hab * ga) / det);
            while (LogLoss(judged, slope + da, offset + db) > LogLoss(judged, slope, offset) && Math.Abs(da) + Math.Abs(db) > 1e-9)
                (da, db) = (da / 2, db / 2);
            (slope, offset) = (slope + da, offset + db);
        }
        return (slope, offset);
    }

    /// <summary>In nats, weighted by time.</summary>
    public static double LogLoss(IReadOnlyList<Judged> judged, double slope, double offset) =>
        -judged.Sum(j => j.Seconds * Math.Log(Math.Clamp(Chance((j.Right ? 1 : -1) * (slope * LogOdds(j.Confidence) + offset)), 1e-3, 1)))
            / judged.Sum(j => j.Seconds);

    private static (double A, double B, double AA, double AB, double BB) Derivatives(IReadOnlyList<Judged> judged, double slope, double offset)
    {
        double a = 0, b = 0, aa = 1e-6, ab = 0, bb = 1e-6;
        foreach (var j in judged)
        {
            var (x, p) = (LogOdds(j.Confidence), Chance(slope * LogOdds(j.Confidence) + offset));
            var (miss, spread) = (j.Seconds * ((j.Right ? 1 : 0) - p), j.Seconds * p * (1 - p));
            (a, b, aa, ab, bb) = (a + miss * x, b + miss, aa + spread * x * x, ab + spread * x, bb + spread);
        }
        return (a, b, aa, ab, bb);
    }

    private static double Chance(double logOdds) => 1 / (1 + Math.Exp(-logOdds));

    private static double LogOdds(double chance)
    {
        var inside = Math.Clamp(chance, Least, 1 - Least);
        return Math.Log(inside / (1 - inside));
    }
}
