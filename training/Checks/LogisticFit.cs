using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Training.Checks;

/// <summary>
/// Fits a logistic regression by Newton's method with a small penalty on large weights. Errors weigh as rare as they are among claims, so that the line
/// is drawn where right claims look worst; the log-odds that come out are of claims as often wrong as right.
/// </summary>
internal static class LogisticFit
{
    /// <summary>How many right claims there are for each wrong one.</summary>
    private const double Rare = 20;

    private const double Penalty = 1e-3;
    private const int Rounds = 30;

    /// <returns>The bias, then a weight a feature.</returns>
    public static double[] Of(IReadOnlyList<Example> examples)
    {
        var size = examples[0].Features.Length + 1;
        var (scale, beta) = (Scales(examples, size), new double[size]);
        var (rights, wrongs) = (examples.Count(e => e.IsRight), examples.Count(e => !e.IsRight));
        for (var round = 0; round < Rounds; round++)
        {
            var (gradient, hessian) = (new double[size], new double[size, size]);
            for (var i = 1; i < size; i++)
                (gradient[i], hessian[i, i]) = (-Penalty * beta[i], Penalty);
            hessian[0, 0] = 1e-9;
            foreach (var example in examples)
                Add(example, beta, scale, 0.5 / (example.IsRight ? rights : Rare * wrongs), gradient, hessian);
            var step = Solve(hessian, gradient);
            for (var i = 0; i < size; i++)
                beta[i] += step[i];
        }
        beta[0] -= Math.Log(Rare);
        return [.. beta.Select((b, i) => b * scale[i])];
    }

    public static double Weigh(double[] weights, Feature[] features) => weights[0] + features.Select((f, i) => f.Value * weights[i + 1]).Sum();

    private static void Add(Example example, double[] beta, double[] scale, double weight, double[] gradient, double[,] hessian)
    {
        double[] x = [1, .. example.Features.Select((f, i) => f.Value * scale[i + 1])];
        var p = 1 / (1 + Math.Exp(-x.Zip(beta, (a, b) => a * b).Sum()));
        for (var i = 0; i < x.Length; i++)
        {
            gradient[i] += weight * ((example.IsRight ? 1 : 0) - p) * x[i];
            for (var j = 0; j < x.Length; j++)
                hessian[i, j] += weight * p * (1 - p) * x[i] * x[j];
        }
    }

    private static double[] Scales(IReadOnlyList<Example> examples, int size)
    {
        var scales = new double[size];
        scales[0] = 1;
        for (var i = 1; i < size; i++)
            scales[i] = 1 / (1e-6 + Math.Sqrt(examples.Average(e => e.Features[i - 1].Value * e.Features[i - 1].Value)));
        return scales;
    }

    /// <summary>Gauss's elimination with the largest pivot first.</summary>
    private static double[] Solve(double[,] a, double[] b)
    {
        var n = b.Length;
        for (var k = 0; k < n; k++)
        {
            var pivot = Enumerable.Range(k, n - k).MaxBy(r => Math.Abs(a[r, k]));
            for (var j = 0; j < n; j++)
                (a[k, j], a[pivot, j]) = (a[pivot, j], a[k, j]);
            (b[k], b[pivot]) = (b[pivot], b[k]);
            for (var r = k + 1; r < n; r++)
            {
                var factor = a[r, k] / a[k, k];
                for (var j = k; j < n; j++)
                    a[r, j] -= factor * a[k, j];
                b[r] -= factor * b[k];
            }
        }
        for (var k = n - 1; k >= 0; k--)
            b[k] = (b[k] - Enumerable.Range(k + 1, n - k - 1).Sum(j => a[k, j] * b[j])) / a[k, k];
        return b;
    }
}
