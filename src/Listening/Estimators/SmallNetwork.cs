using System.Globalization;
using System.Numerics.Tensors;

namespace Harkbook.Listening.Estimators;

/// <summary>One hidden layer over standardised features, read from rows of numbers in an embedded text.</summary>
internal sealed class SmallNetwork
{
    private readonly float[] mean, scale, hiddenBias, outputBias;
    private readonly float[][] hidden, output;

    private SmallNetwork(float[] mean, float[] scale, float[] hiddenBias, float[][] hidden, float[] outputBias, float[][] output) =>
        (this.mean, this.scale, this.hiddenBias, this.hidden, this.outputBias, this.output) = (mean, scale, hiddenBias, hidden, outputBias, output);

    public int Outputs => output.Length;

    /// <summary>From means, scales, hidden biases, hidden weights (a row a unit), output biases and output weights (a row an output).</summary>
    public static SmallNetwork Of(float[] mean, float[] scale, float[] hiddenBias, float[][] hidden, float[] outputBias, float[][] output) =>
        new(mean, scale, hiddenBias, hidden, outputBias, output);

    /// <summary>Reads means, scales, hidden biases, hidden weights (a row a unit), output biases, output weights (a row an output); # starts a
    /// comment.</summary>
    /// <param name="features">How many features the caller has, which the weights must have been fitted to.</param>
    public static SmallNetwork Read(TextReader reader, int features)
    {
        var rows = new List<float[]>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#')
                rows.Add([.. line.Split(' ').Select(w => float.Parse(w, CultureInfo.InvariantCulture))]);
        }
        var units = rows.Count > 2 ? rows[2].Length : 0;
        return rows.Count > units + 4 && rows[0].Length == features && rows.Count == units + 4 + rows[units + 3].Length
            ? new(rows[0], rows[1], rows[2], [.. rows.Skip(3).Take(units)], rows[units + 3], [.. rows.Skip(units + 4)])
            : throw new InvalidDataException(
                $"These weights don't take {features} features, a row a unit and a row an output; were they fitted to other features?");
    }

    /// <summary>The network that comes with the program under a name, as "Estimators/Notes/note-weights.txt".</summary>
    public static SmallNetwork Shipped(string name, int features)
    {
        using var stream = typeof(SmallNetwork).Assembly.GetManifestResourceStream("Harkbook.Listening." + name)
            ?? throw new InvalidOperationException($"{name} is missing from the program; it was built without its embedded files.");
        using var reader = new StreamReader(stream);
        return Read(reader, features);
    }

    /// <summary>What every output says before any squashing.</summary>
    /// <param name="features">Standardised in place.</param>
    public float[] Weigh(Span<float> features)
    {
        TensorPrimitives.Subtract(features, mean, features);
        TensorPrimitives.Multiply(features, scale, features);
        var layer = new float[hidden.Length];
        for (var j = 0; j < layer.Length; j++)
            layer[j] = MathF.Max(0, TensorPrimitives.Dot(features, hidden[j]) + hiddenBias[j]);
        return [.. output.Select((row, o) => TensorPrimitives.Dot<float>(layer, row) + outputBias[o])];
    }
}
