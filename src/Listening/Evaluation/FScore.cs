namespace Harkbook.Listening.Evaluation;

/// <summary>Precision (of the estimated, how many are right), recall (of the true, how many were found) and their harmonic mean. Each 0–1.</summary>
public readonly record struct FScore
{
    private FScore(double precision, double recall)
    {
        Precision = precision;
        Recall = recall;
    }

    public double Precision { get; }

    public double Recall { get; }

    public double F => Precision + Recall > 0 ? 2 * Precision * Recall / (Precision + Recall) : 0;

    /// <summary>From counts; zero where either side is empty.</summary>
    public static FScore FromCounts(int matched, int reference, int estimated) =>
        reference == 0 || estimated == 0 ? default : new((double)matched / estimated, (double)matched / reference);
}
