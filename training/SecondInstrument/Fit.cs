using Harkbook.Listening.Estimators;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Units;

namespace Harkbook.Training.SecondInstrument;

/// <summary>Fits the strands' weights to made-up pieces.</summary>
internal static class Fit
{
    private const int Passes = 25, Units = 32, Seed = 5;

    private static readonly string[] Kinds = ["harmonica", "voice", "whistle", "bowed"];

    /// <summary>Every other sixteen pieces fit the first network, the rest the second, so that it learns from chances as they are on unseen pieces.</summary>
    public static int Run(IReadOnlyList<FontPlayer> fonts, int pieces, int seed, double length, string folder)
    {
        var (first, second) = (Path.Combine(folder, "strand-weights.txt"), Path.Combine(folder, "line-weights.txt"));
        var takes = Enumerable.Range(0, pieces).Select(i =>
        {
            var duet = DuetStore.Get(i, seed, fonts[i / 2 % fonts.Count], length);
            var strands = SecondInstrumentScan.Strands(duet.Sound, Hertz.A440, null, default);
            return (duet.Kind, Strands: strands, Origins: strands.Select(s => Labels.Of(s, duet)).ToArray(), IsFirst: i / 16 % 2 == 0);
        }).ToList();
        FitOne([.. takes.Where(t => t.IsFirst).SelectMany(t => Examples(t.Kind, t.Strands, t.Origins, Own(t.Strands)))], first);
        using var reader = File.OpenText(first);
        var alone = SmallNetwork.Read(reader, StrandFeatures.Count);
        FitOne([.. takes.Where(t => !t.IsFirst).SelectMany(t => Examples(t.Kind, t.Strands, t.Origins, StrandWeigher.First(t.Strands, alone, default).Rows))], second);
        return 0;
    }

    private static void FitOne(Example[] all, string weights)
    {
        Console.WriteLine($"{all.Length} strands, {all.Count(e => e.IsLine > 0)} of the line's");
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
    }

    private static float[][] Own(List<Strand> strands)
    {
        var features = new StrandFeatures(strands);
        return [.. Enumerable.Range(0, strands.Count).Select(features.Of)];
    }

    private static IEnumerable<Example> Examples(string kind, List<Strand> strands, Origin[] origins, float[][] rows)
    {
        for (var i = 0; i < strands.Count; i++)
        {
            if (origins[i] == Origin.Unclear)
                continue;
            var isLine = origins[i] == Origin.Line;
            yield return new(rows[i], isLine ? 1 : 0, isLine ? Array.IndexOf(Kinds, kind) : -1, MathF.Sqrt(Math.Min(64, strands[i].Length) / 16f) * (isLine ? 2 : 1));
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
