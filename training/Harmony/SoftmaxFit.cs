using System.Numerics.Tensors;

namespace Harkbook.Training.Harmony;

/// <summary>
/// Weights of features that make the true one of several the likeliest: conditional logit (D. McFadden, "Conditional logit analysis of qualitative
/// choice behavior", in Frontiers in Econometrics, 1974), by gradient ascent with steps that shrink by themselves, a pull toward 0 and none below 0.
/// </summary>
internal static class SoftmaxFit
{
    private const int Steps = 4000;

    public static double[] Fit(IReadOnlyList<KeyRow> rows, double pull)
    {
        var weights = new double[KeyRow.Names.Length];
        var squares = new double[weights.Length];
        for (var step = 0; step < Steps; step++)
        {
            var slope = Slope(rows, weights, pull);
            for (var f = 0; f < weights.Length; f++)
            {
                squares[f] += slope[f] * slope[f];
                weights[f] = Math.Max(0, weights[f] + 0.5 * slope[f] / Math.Sqrt(squares[f] + 1e-9));
            }
        }
        return weights;
    }

    public static double LogLoss(IReadOnlyList<KeyRow> rows, double[] weights) =>
        -rows.Average(r => Math.Log(Chances(r, weights)[r.Truth] + 1e-12));

    public static double Right(IReadOnlyList<KeyRow> rows, double[] weights) =>
        rows.Average(r => TensorPrimitives.IndexOfMax<double>(Chances(r, weights)) == r.Truth ? 1.0 : 0);

    private static double[] Slope(IReadOnlyList<KeyRow> rows, double[] weights, double pull)
    {
        var slope = Array.ConvertAll(weights, w => -pull * w);
        foreach (var row in rows)
        {
            var chances = Chances(row, weights);
            for (var f = 0; f < weights.Length; f++)
                slope[f] += row.Features[row.Truth][f] - chances.Select((c, k) => c * row.Features[k][f]).Sum();
        }
        return slope;
    }

    private static double[] Chances(KeyRow row, double[] weights)
    {
        double[] logs = [.. row.Features.Select(f => TensorPrimitives.Dot<double>(f, weights))];
        TensorPrimitives.Subtract(logs, TensorPrimitives.Max<double>(logs), logs);
        TensorPrimitives.SoftMax(logs, logs);
        return logs;
    }
}
