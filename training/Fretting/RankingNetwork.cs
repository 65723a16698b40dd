using System.Globalization;
using System.Numerics.Tensors;

namespace Harkbook.Training.Fretting;

/// <summary>One hidden layer that gives each candidate a figure whose softmax over a piece's candidates is fitted by Adam (D. Kingma and J. Ba, ICLR 2015).</summary>
internal sealed class RankingNetwork
{
    private const int Steps = 12000;
    private const float Decay = 2e-3f;

    private readonly int inputs, units;
    private readonly float[] mean, scale;
    private readonly float[][] values, slopes, means, squares;
    private readonly bool isSum;
    private int step;

    /// <param name="units">Of the hidden layer; 0 for a weighted sum.</param>
    public RankingNetwork(RankingCase[] cases, int seed, int units)
    {
        this.units = Math.Max(1, units);
        isSum = units == 0;
        inputs = cases[0].Features[0].Length;
        (mean, scale) = Spread(cases);
        var random = new Random(seed);
        values = [isSum ? new float[inputs] : Uniform(inputs * units, inputs, random), new float[this.units], isSum ? [1] : Uniform(units, units, random)];
        (slopes, means, squares) = (Alike(), Alike(), Alike());
        var order = cases.ToArray();
        while (step < Steps)
        {
            random.Shuffle(order);
            foreach (var batch in order.Chunk(8))
            {
                foreach (var slope in slopes)
                    Array.Clear(slope);
                foreach (var one in batch)
                    Learn(one);
                Step(step < 0.6 * Steps ? 3e-3f : step < 0.85 * Steps ? 1e-3f : 3e-4f, batch.Length);
            }
        }
    }

    public double[] Chances(RankingCase c) => Chances(c, out _);

    public void Write(string path)
    {
        using var writer = File.CreateText(path);
        writer.WriteLine("# Fitted by training/Fretting (see its README.md): means, scales, hidden biases and weights, output biases and weights.");
        // A weighted sum is two hidden units, one for each sign.
        var rows = isSum
            ? new[] { mean, scale, new float[2], values[0], [.. values[0].Select(v => -v)], new float[1], [1, -1] }
            : [mean, scale, values[1], .. values[0].Chunk(inputs), new float[1], values[2]];
        foreach (var row in rows)
            writer.WriteLine(string.Join(' ', row.Select(v => v.ToString("G5", CultureInfo.InvariantCulture))));
    }

    private float[] Standard(float[] features) => [.. features.Select((f, k) => (f - mean[k]) * scale[k])];

    private float[] Hidden(float[] input)
    {
        var hidden = new float[units];
        for (var j = 0; j < units; j++)
            hidden[j] = Bent(TensorPrimitives.Dot<float>(input, values[0].AsSpan(j * inputs, inputs)) + values[1][j]);
        return hidden;
    }

    private float Bent(float value) => isSum ? value : MathF.Max(0, value);

    private double[] Chances(RankingCase c, out (float[] Input, float[] Hidden)[] seen)
    {
        seen = [.. c.Features.Select(f => Standard(f)).Select(f => (f, Hidden(f)))];
        var scores = seen.Select(s => (double)TensorPrimitives.Dot<float>(s.Hidden, values[2])).ToArray();
        var top = scores.Max();
        var chances = scores.Select(s => Math.Exp(s - top)).ToArray();
        var total = chances.Sum();
        return [.. chances.Select(x => x / total)];
    }

    private void Learn(RankingCase c)
    {
        var chances = Chances(c, out var seen);
        for (var g = 0; g < chances.Length; g++)
        {
            var error = (float)(chances[g] - (g == c.True ? 1 : 0));
            if (MathF.Abs(error) < 1e-4f)
                continue;
            TensorPrimitives.MultiplyAdd(seen[g].Hidden, error, slopes[2], slopes[2]);
            for (var j = 0; j < units; j++)
            {
                if (!isSum && seen[g].Hidden[j] <= 0)
                    continue;
                var back = error * values[2][j];
                slopes[1][j] += back;
                var row = slopes[0].AsSpan(j * inputs, inputs);
                TensorPrimitives.MultiplyAdd(seen[g].Input, back, row, row);
            }
        }
    }

    private void Step(float rate, int batch)
    {
        step++;
        var (meanScale, squareScale) = (1 / (1 - MathF.Pow(0.9f, step)), 1 / (1 - MathF.Pow(0.999f, step)));
        for (var q = 0; q < (isSum ? 1 : values.Length); q++)
        {
            for (var k = 0; k < values[q].Length; k++)
            {
                var slope = slopes[q][k] / batch + (q == 1 ? 0 : Decay * values[q][k]);
                means[q][k] = 0.9f * means[q][k] + 0.1f * slope;
                squares[q][k] = 0.999f * squares[q][k] + 0.001f * slope * slope;
                values[q][k] -= rate * means[q][k] * meanScale / (MathF.Sqrt(squares[q][k] * squareScale) + 1e-8f);
            }
        }
    }

    private (float[] Mean, float[] Scale) Spread(RankingCase[] cases)
    {
        var rows = cases.SelectMany(c => c.Features).ToArray();
        var average = Enumerable.Range(0, inputs).Select(k => rows.Average(r => (double)r[k])).ToArray();
        return ([.. average.Select(a => (float)a)],
            [.. Enumerable.Range(0, inputs).Select(k => (float)(1 / (Math.Sqrt(rows.Average(r => Math.Pow(r[k] - average[k], 2))) + 1e-3)))]);
    }

    private float[][] Alike() => [.. values.Select(p => new float[p.Length])];

    private static float[] Uniform(int count, int fanIn, Random random) =>
        [.. Enumerable.Range(0, count).Select(_ => (float)((2 * random.NextDouble() - 1) * Math.Sqrt(3.0 / fanIn)))];
}
