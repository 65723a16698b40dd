using System.Globalization;
using System.Numerics.Tensors;

namespace Harkbook.Training.SecondInstrument;

/// <summary>
/// One hidden layer, fitted by Adam (D. Kingma and J. Ba, ICLR 2015): output 0 says "second instrument" (binary cross-entropy),
/// the others which kind (softmax, learnt from the second instrument's strands alone).
/// </summary>
internal sealed class Layer
{
    private const int Batch = 64;
    private const float Decay = 1e-4f;

    private readonly int inputs, units, outputs;
    private readonly float[][] values, slopes, means, squares;
    private int step;

    public Layer(int inputs, int units, int kinds, Random random)
    {
        (this.inputs, this.units, outputs) = (inputs, units, kinds + 1);
        values = [Uniform(inputs * units, inputs, random), new float[units], Uniform(outputs * units, units, random), new float[outputs]];
        (slopes, means, squares) = (Alike(), Alike(), Alike());
    }

    public double Pass(Example[] examples, float rate, Random random)
    {
        random.Shuffle(examples);
        var loss = 0.0;
        for (var from = 0; from + Batch <= examples.Length; from += Batch)
        {
            foreach (var slope in slopes)
                Array.Clear(slope);
            for (var i = from; i < from + Batch; i++)
                loss += Learn(examples[i]);
            Step(rate);
        }
        return loss / examples.Length;
    }

    public void Write(TextWriter writer, float[] mean, float[] scale)
    {
        foreach (var row in new[] { mean, scale, values[1] }.Concat(values[0].Chunk(inputs)).Append(values[3]).Concat(values[2].Chunk(units)))
            writer.WriteLine(string.Join(' ', row.Select(v => v.ToString("G5", CultureInfo.InvariantCulture))));
    }

    private double Learn(Example example)
    {
        var hidden = new float[units];
        for (var j = 0; j < units; j++)
            hidden[j] = MathF.Max(0, TensorPrimitives.Dot<float>(example.Features, values[0].AsSpan(j * inputs, inputs)) + values[1][j]);
        var said = new double[outputs];
        for (var o = 0; o < outputs; o++)
            said[o] = TensorPrimitives.Dot<float>(hidden, values[2].AsSpan(o * units, units)) + values[3][o];
        var (errors, loss) = Errors(said, example);
        var back = new float[units];
        for (var o = 0; o < outputs; o++)
        {
            slopes[3][o] += errors[o];
            Accumulate(hidden, errors[o], slopes[2].AsSpan(o * units, units));
            Accumulate(values[2].AsSpan(o * units, units), errors[o], back);
        }
        for (var j = 0; j < units; j++)
        {
            if (hidden[j] <= 0)
                continue;
            slopes[1][j] += back[j];
            Accumulate(example.Features, back[j], slopes[0].AsSpan(j * inputs, inputs));
        }
        return loss;
    }

    private static (float[] Errors, double Loss) Errors(double[] said, Example example)
    {
        var errors = new float[said.Length];
        var chance = 1 / (1 + Math.Exp(-said[0]));
        errors[0] = (float)(example.Weight * (chance - example.IsLine) / Batch);
        var loss = -example.Weight * Math.Log(1e-7 + (example.IsLine > 0 ? chance : 1 - chance));
        if (example.Kind < 0)
            return (errors, loss);
        var top = said.Skip(1).Max();
        var total = said.Skip(1).Sum(s => Math.Exp(s - top));
        for (var k = 1; k < said.Length; k++)
            errors[k] = (float)(example.Weight * (Math.Exp(said[k] - top) / total - (k - 1 == example.Kind ? 1 : 0)) / Batch);
        return (errors, loss);
    }

    private void Step(float rate)
    {
        step++;
        var (meanScale, squareScale) = (1 / (1 - MathF.Pow(0.9f, step)), 1 / (1 - MathF.Pow(0.999f, step)));
        for (var q = 0; q < values.Length; q++)
        {
            for (var k = 0; k < values[q].Length; k++)
            {
                var slope = slopes[q][k] + (q % 2 == 0 ? Decay * values[q][k] : 0);
                means[q][k] = 0.9f * means[q][k] + 0.1f * slope;
                squares[q][k] = 0.999f * squares[q][k] + 0.001f * slope * slope;
                values[q][k] -= rate * means[q][k] * meanScale / (MathF.Sqrt(squares[q][k] * squareScale) + 1e-8f);
            }
        }
    }

    private static void Accumulate(ReadOnlySpan<float> from, float factor, Span<float> sum) => TensorPrimitives.MultiplyAdd(from, factor, sum, sum);

    private float[][] Alike() => [.. values.Select(p => new float[p.Length])];

    private static float[] Uniform(int count, int fanIn, Random random) =>
        [.. Enumerable.Range(0, count).Select(_ => (float)((2 * random.NextDouble() - 1) * Math.Sqrt(3.0 / fanIn)))];
}
