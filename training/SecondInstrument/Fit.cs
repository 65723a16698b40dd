using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Fits the strands' weights to made-up pieces.</summary>
internal static class Fit
{
    private const int Passes = 25, Units = 32, Seed = 5;

    private static readonly string[] Kinds = ["harmonica", "voice", "whistle", "bowed"];

    public static int Run(IReadOnlyList<FontPlayer> fonts, int pieces, int seed, double length, string weights)
    {
        var examples = new List<Example>();
        for (var i = 0; i < pieces; i++)
            examples.AddRange(Examples(DuetStore.Get(i, seed, fonts[i / 2 % fonts.Count], length)));
        Console.WriteLine($"{examples.Count} strands, {examples.Count(e => e.IsLine > 0)} of the line's");
        var all = examples.ToArray();
        var (mean, scale) = Standardise(all);
        var (layer, random) = (new Layer(mean.Length, Units, Kinds.Length, new(Seed)), new Random(Seed));
        for (var pass = 0; pass < Passes; pass++)
        {
            var rate = pass < 0.6 * Passes ? 2e-3f : pass < 0.85 * Passes ? 7e-4f : 2e-4f;
            var loss = layer.Pass(all, rate, random);
            if (pass % 5 == 4)
                Console.WriteLine($"pass {pass + 1} of {Passes}: loss {loss:F4}");
        }
        using var writer = File.CreateText(weights);
        writer.WriteLine("# Fitted by training/SecondInstrument (see its README.md): means, scales, hidden biases and weights, output biases and weights.");
        layer.Write(writer, mean, scale);
        return 0;
    }

    private static IEnumerable<Example> Examples(Duet duet)
    {
        var strands = SecondInstrumentScan.Strands(duet.Sound, Hertz.A440, null, default);
        var features = new StrandFeatures(strands);
        for (var i = 0; i < strands.Count; i++)
        {
            var origin = Labels.Of(strands[i], duet);
            if (origin == Origin.Unclear)
                continue;
            var isLine = origin == Origin.Line;
            yield return new(features.Of(i), isLine ? 1 : 0, isLine ? Array.IndexOf(Kinds, duet.Kind) : -1, MathF.Sqrt(Math.Min(64, strands[i].Length) / 16f) * (isLine ? 2 : 1));
        }
    }

    private static (float[] Mean, float[] Scale) Standardise(Example[] examples)
    {
        var count = examples[0].Features.Length;
        var (mean, scale) = (new float[count], new float[count]);
        for (var k = 0; k < count; k++)
        {
            var average = examples.Average(e => (double)e.Features[k]);
            var spread = Math.Sqrt(examples.Average(e => Math.Pow(e.Features[k] - average, 2)));
            (mean[k], scale[k]) = ((float)average, (float)(1 / (spread + 1e-3)));
            foreach (var example in examples)
                example.Features[k] = (example.Features[k] - mean[k]) * scale[k];
        }
        return (mean, scale);
    }
}
