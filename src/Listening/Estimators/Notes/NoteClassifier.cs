using System.Globalization;
using System.Numerics.Tensors;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Turns features into two chances, "starts here" and "sounds here", by one small layer shared by all pitches.
/// The weights are in note-weights.txt beside this file, which tells what they were fitted to.
/// </summary>
internal sealed class NoteClassifier
{
    private readonly float[] mean;
    private readonly float[] scale;
    private readonly float[][] hidden;
    private readonly float[] hiddenBias;
    private readonly float[][] output;
    private readonly float[] outputBias;

    public NoteClassifier(float[] mean, float[] scale, float[][] hidden, float[] hiddenBias, float[][] output, float[] outputBias) =>
        (this.mean, this.scale, this.hidden, this.hiddenBias, this.output, this.outputBias) = (mean, scale, hidden, hiddenBias, output, outputBias);

    /// <summary>The weights that come with the program.</summary>
    public static NoteClassifier Shipped { get; } = ReadShipped();

    public (float Onset, float Sounding) Weigh(Span<float> features)
    {
        TensorPrimitives.Subtract(features, mean, features);
        TensorPrimitives.Multiply(features, scale, features);
        Span<float> layer = stackalloc float[hidden.Length];
        for (var j = 0; j < layer.Length; j++)
            layer[j] = MathF.Max(0, TensorPrimitives.Dot(features, hidden[j]) + hiddenBias[j]);
        return (Chance(layer, 0), Chance(layer, 1));
    }

    /// <summary>Reads rows of numbers: means, scales, hidden biases, hidden weights (a row a unit), output biases, output weights.</summary>
    public static NoteClassifier Read(TextReader reader)
    {
        var rows = new List<float[]>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#')
                rows.Add([.. line.Split(' ').Select(w => float.Parse(w, CultureInfo.InvariantCulture))]);
        }
        var units = rows[2].Length;
        return rows[0].Length == NoteFeatures.Count && rows.Count == units + 6
            ? new(rows[0], rows[1], [.. rows.Skip(3).Take(units)], rows[2], [.. rows.Skip(units + 4)], rows[units + 3])
            : throw new InvalidDataException($"Note weights need {NoteFeatures.Count} features a row and a row a unit; were they fitted to other features?");
    }

    private float Chance(ReadOnlySpan<float> layer, int which) =>
        1 / (1 + MathF.Exp(-TensorPrimitives.Dot(layer, output[which]) - outputBias[which]));

    private static NoteClassifier ReadShipped()
    {
        const string Name = "Harkbook.Listening.Estimators.Notes.note-weights.txt";
        using var stream = typeof(NoteClassifier).Assembly.GetManifestResourceStream(Name)
            ?? throw new InvalidOperationException($"{Name} is missing from the program; it was built without its embedded files.");
        using var reader = new StreamReader(stream);
        return Read(reader);
    }
}
