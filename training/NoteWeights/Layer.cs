using System.Globalization;
using System.Numerics.Tensors;

namespace Harkbook.Training.NoteWeights;

/// <summary>One hidden layer with two outputs, fitted by Adam (D. Kingma and J. Ba, ICLR 2015) to binary cross-entropy.</summary>
internal sealed class Layer
{
    private const int Batch = 128;
    private const float Decay = 3e-5f;

    private static readonly float[] TaskWeights = [3, 1];

    private readonly int inputs, units;
    private readonly float[][] parameters, gradients, means, squares;
    private readonly float[] hidden, hiddenGradient;
    private int step;

    public Layer(int inputs, int units, Random random)
    {
        (this.inputs, this.units) = (inputs, units);
        parameters = [Uniform(inputs * units, inputs, random), new float[units], Uniform(2 * units, units, random), new float[2]];
        (gradients, means, squares) = (Alike(), Alike(), Alike());
        (hidden, hiddenGradient) = (new float[units], new float[units]);
    }

    /// <summary>One pass over the examples in random order; the mean loss.</summary>
    public double Pass(Example[] examples, float rate, Random random)
    {
        random.Shuffle(examples);
        var loss = 0.0;
        for (var from = 0; from + Batch <= examples.Length; from += Batch)
        {
            foreach (var gradient in gradients)
                Array.Clear(gradient);
            for (var i = from; i < from + Batch; i++)
                loss += Learn(examples[i]);
            Step(rate);
        }
        return loss / examples.Length;
    }

    public void Write(TextWriter writer, float[] mean, float[] scale)
    {
        foreach (var row in new[] { mean, scale, parameters[1] }.Concat(parameters[0].Chunk(inputs)).Append(parameters[3]).Concat(parameters[2].Chunk(units)))
            writer.WriteLine(string.Join(' ', row.Select(v => v.ToString("G5", CultureInfo.InvariantCulture))));
    }

    private double Learn(Example example)
    {
        var (loss, targets) = (0.0, new[] { example.Onset, example.Sounding });
        for (var j = 0; j < units; j++)
            hidden[j] = MathF.Max(0, TensorPrimitives.Dot<float>(example.Features, Row(0, j, inputs)) + parameters[1][j]);
        Array.Clear(hiddenGradient);
        for (var task = 0; task < 2; task++)
        {
            var chance = 1 / (1 + MathF.Exp(-TensorPrimitives.Dot<float>(hidden, Row(2, task, units)) - parameters[3][task]));
            var weight = TaskWeights[task] * example.Weight;
            loss -= weight * (targets[task] * Math.Log(chance + 1e-7) + (1 - targets[task]) * Math.Log(1 - chance + 1e-7));
            var slope = weight * (chance - targets[task]) / Batch;
            gradients[3][task] += slope;
            Accumulate(hidden, slope, gradients[2].AsSpan(task * units, units));
            Accumulate(Row(2, task, units), slope, hiddenGradient);
        }
        for (var j = 0; j < units; j++)
        {
            if (hidden[j] <= 0)
                continue;
            gradients[1][j] += hiddenGradient[j];
            Accumulate(example.Features, hiddenGradient[j], gradients[0].AsSpan(j * inputs, inputs));
        }
        return loss;
    }

    private void Step(float rate)
    {
        step++;
        var (meanScale, squareScale) = (1 / (1 - MathF.Pow(0.9f, step)), 1 / (1 - MathF.Pow(0.999f, step)));
        for (var q = 0; q < parameters.Length; q++)
        {
            for (var k = 0; k < parameters[q].Length; k++)
            {
                var slope = gradients[q][k] + (q % 2 == 0 ? Decay * parameters[q][k] : 0);
                means[q][k] = 0.9f * means[q][k] + 0.1f * slope;
                squares[q][k] = 0.999f * squares[q][k] + 0.001f * slope * slope;
                parameters[q][k] -= rate * means[q][k] * meanScale / (MathF.Sqrt(squares[q][k] * squareScale) + 1e-8f);
            }
        }
    }

    private ReadOnlySpan<float> Row(int matrix, int row, int length) => parameters[matrix].AsSpan(row * length, length);

    private static void Accumulate(ReadOnlySpan<float> values, float factor, Span<float> sum) => TensorPrimitives.MultiplyAdd(values, factor, sum, sum);

    private float[][] Alike() => [.. parameters.Select(p => new float[p.Length])];

    private static float[] Uniform(int count, int fanIn, Random random) =>
        [.. Enumerable.Range(0, count).Select(_ => (float)((2 * random.NextDouble() - 1) * Math.Sqrt(3.0 / fanIn)))];
}
