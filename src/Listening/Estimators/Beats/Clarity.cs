namespace Harkbook.Listening.Estimators.Beats;

/// <summary>How clear a beat is, 0 to 1.</summary>
internal static class Clarity
{
    /// <summary>Near 0 where the best train of pulses fits no better than it would in noise, near 1 for a plain strum.</summary>
    public static double Of(BeatGrid grid, BeatActivation activation) => Logistic(6 * (grid.PulseScore - 0.8));

    public static double OfBeat(BeatActivation activation, double time, double confidence) =>
        confidence * (0.4 + 0.6 * Logistic(3 * activation.Peak(time)));

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-x));
}
