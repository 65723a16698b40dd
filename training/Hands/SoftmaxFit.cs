using Harkbook.Listening.Checking.Weighing;

namespace Harkbook.Training.Hands;

/// <summary>What was seen, and of which kind it truly is; 0 is the kind that the others are weighed against.</summary>
internal sealed record Example(Feature[] Features, int Kind, string Piece);

/// <summary>Fits a multinomial logistic regression by gradient descent with momentum over scaled features, with a small penalty on large weights.</summary>
internal static class SoftmaxFit
{
    private const double Penalty = 1e-3, Rate = 0.5, Momentum = 0.9;
    private const int Rounds = 1500;

    /// <returns>For each kind but the first, the weights by feature and "bias".</returns>
    public static Dictionary<string, double>[] Of(IReadOnlyList<Example> examples, int kinds)
    {
        var names = examples[0].Features.Select(f => f.Name).ToArray();
        var (mean, scale) = (new double[names.Length], new double[names.Length]);
        for (var i = 0; i < names.Length; i++)
        {
            mean[i] = examples.Average(e => e.Features[i].Value);
            scale[i] = Math.Sqrt(examples.Average(e => Math.Pow(e.Features[i].Value - mean[i], 2))) + 1e-6;
        }
        var rows = examples.Select(e => e.Features.Select((f, i) => (f.Value - mean[i]) / scale[i]).Append(1).ToArray()).ToArray();
        var (weights, speed) = (Table(kinds - 1, names.Length + 1), Table(kinds - 1, names.Length + 1));
        for (var round = 0; round < Rounds; round++)
        {
            var gradient = Table(kinds - 1, names.Length + 1);
            for (var e = 0; e < rows.Length; e++)
            {
                var chance = Chances(weights, rows[e]);
                for (var k = 1; k < kinds; k++)
                {
                    var off = (examples[e].Kind == k ? 1 : 0) - chance[k];
                    for (var i = 0; i < rows[e].Length; i++)
                        gradient[k - 1][i] += off * rows[e][i] / rows.Length;
                }
            }
            for (var k = 0; k < kinds - 1; k++)
            {
                for (var i = 0; i <= names.Length; i++)
                {
                    speed[k][i] = Momentum * speed[k][i] + Rate * (gradient[k][i] - (i < names.Length ? Penalty * weights[k][i] : 0));
                    weights[k][i] += speed[k][i];
                }
            }
        }
        return [.. weights.Select(w =>
        {
            var plain = names.Select((n, i) => (n, w[i] / scale[i])).ToDictionary(p => p.n, p => Math.Round(p.Item2, 4));
            plain["bias"] = Math.Round(w[^1] - names.Select((_, i) => w[i] / scale[i] * mean[i]).Sum(), 4);
            return plain;
        })];
    }

    public static double[] Chances(Dictionary<string, double>[] weights, Feature[] features)
    {
        var logs = weights.Select(w => w["bias"] + features.Sum(f => w[f.Name] * f.Value)).Prepend(0).ToArray();
        var most = logs.Max();
        var sum = logs.Sum(l => Math.Exp(l - most));
        return [.. logs.Select(l => Math.Exp(l - most) / sum)];
    }

    private static double[] Chances(double[][] weights, double[] row)
    {
        var logs = new double[weights.Length + 1];
        for (var k = 0; k < weights.Length; k++)
        {
            for (var i = 0; i < row.Length; i++)
                logs[k + 1] += weights[k][i] * row[i];
        }
        var most = logs.Max();
        var sum = logs.Sum(l => Math.Exp(l - most));
        return [.. logs.Select(l => Math.Exp(l - most) / sum)];
    }

    private static double[][] Table(int rows, int columns) => [.. Enumerable.Range(0, rows).Select(_ => new double[columns])];
}
