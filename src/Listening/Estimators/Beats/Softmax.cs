namespace Harkbook.Listening.Estimators.Beats;

internal static class Softmax
{
    /// <summary>Shares that sum to 1, in proportion to e^score.</summary>
    public static double[] Of(double[] scores)
    {
        var top = scores.Max();
        var shares = scores.Select(s => Math.Exp(s - top)).ToArray();
        var sum = shares.Sum();
        return [.. shares.Select(s => s / sum)];
    }
}
