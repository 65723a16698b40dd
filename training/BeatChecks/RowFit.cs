using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Evidence;

namespace Harkbook.Training.BeatChecks;

/// <summary>Fits what each piece of evidence counts: the conditional likelihood of the true rows among all rows (a conditional random field), by Adam.</summary>
internal static class RowFit
{
    /// <summary>
    /// How strongly each weight is held to its usual value. What the network says of bars counts by itself, so that bars are told where no sound is.
    /// </summary>
    private static double Pull(int weight) =>
        weight == Weights.Downbeat || weight == Weights.FeltMeter ? 0.1 : weight < StepFeatures.Count ? 5e-3 : 2e-4;

    private static double Usual(int weight) =>
        weight == Weights.Beat || weight == Weights.FeltTempo ? 0.5 : weight == Weights.UsualTempo ? 0.2
        : weight == Weights.Downbeat ? 0.3 : weight == Weights.FeltMeter ? 0.2 : weight == Weights.Clues ? 0.4
        : weight == Weights.Tempo ? 22 : weight == Weights.Bar ? 6 : 0;

    /// <param name="hopeless">The log-likelihood a beat, without its sign, at which a piece counts a quarter.</param>
    public static (BeatModel Model, PlaceNetwork Network) Fit(
        IReadOnlyList<FitPiece> pieces, BeatModel model, PlaceNetwork network, int rounds, double hopeless, TextWriter output)
    {
        var (weights, random) = (Weights.Of(model), new Random(1));
        var sizes = Enumerable.Range(0, weights.Length).Select(w => w == Weights.Tempo ? 10.0 : w == Weights.Bar ? 3 : 1).ToArray();
        var (first, second) = (new Adam(weights.Length), new Adam(network.Values.Length));
        var ran = new Queue<double>();
        for (var round = 1; round <= rounds; round++)
        {
            var now = model.With(weights) with { Places = network.Network };
            var some = pieces.OrderBy(_ => random.Next()).Take(Batch).ToArray();
            var parts = some.AsParallel().Select(p =>
            {
                var (g, n) = (new double[weights.Length], new double[network.Values.Length]);
                return (Value: p.Grow(now, network, g, n), Growth: g, Places: n);
            }).Where(p => p.Value is not null).ToArray();
            var rate = 1 - 0.95 * round / rounds;
            // A piece whose true rows can't be reached must not pull the weights of all others down (Geman and McClure's robust loss).
            var shares = parts.Select(p => Math.Pow(1 - Math.Min(0, p.Value!.Value) / hopeless, -2)).ToArray();
            first.Step(weights, w => parts.Select((p, k) => shares[k] * p.Growth[w]).Average()
                - Pull(w) * (weights[w] - Usual(w)) / (sizes[w] * sizes[w]), w => 0.06 * rate * sizes[w]);
            second.Step(network.Values, v => parts.Select((p, k) => shares[k] * p.Places[v]).Average() - 5e-4 * network.Values[v], _ => 0.004 * rate);
            for (var w = Weights.Frame; w < weights.Length; w++)
                weights[w] = Math.Max(0.01, weights[w]);
            ran.Enqueue(parts.Average(p => p.Value!.Value));
            if (round % 20 == 0)
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"round {round}: {ran.TakeLast(20).Average():0.0000} a beat"));
        }
        return (model.With(weights) with { Places = network.Network }, network);
    }

    private const int Batch = 24;

    /// <summary>D. Kingma and J. Ba, "Adam: a method for stochastic optimization", ICLR 2015.</summary>
    private sealed class Adam(int count)
    {
        private readonly double[] mean = new double[count], square = new double[count];
        private int round;

        public void Step(double[] values, Func<int, double> growth, Func<int, double> rate)
        {
            round++;
            for (var i = 0; i < values.Length; i++)
            {
                var g = growth(i);
                mean[i] = 0.9 * mean[i] + 0.1 * g;
                square[i] = 0.99 * square[i] + 0.01 * g * g;
                values[i] += rate(i) * mean[i] / (1 - Math.Pow(0.9, round)) / (Math.Sqrt(square[i] / (1 - Math.Pow(0.99, round))) + 1e-6);
            }
        }
    }

    /// <summary>Writes a model like another but for what was fitted.</summary>
    public static void Write(BeatModel model, PlaceNetwork network, string like, string path)
    {
        var file = JsonNode.Parse(File.ReadAllBytes(like))!.AsObject();
        file["weights"] = JsonSerializer.SerializeToNode(Weights.Names.Zip(Weights.Of(model)).ToDictionary(p => p.First, p => Math.Round(p.Second, 4)));
        file["places"] = JsonSerializer.SerializeToNode(new
        {
            mean = network.Mean, scale = network.Scale, hiddenBias = network.HiddenBias, hidden = network.Hidden,
            outputBias = network.OutputBias, output = network.Output,
        });
        File.WriteAllText(path, file.ToJsonString());
    }

    public static PlaceNetwork Network(string path)
    {
        var places = JsonDocument.Parse(File.ReadAllBytes(path)).RootElement.GetProperty("places");
        double[] Row(string name) => places.GetProperty(name).Deserialize<double[]>()!;
        double[][] Rows(string name) => places.GetProperty(name).Deserialize<double[][]>()!;
        return new([.. Row("mean").Select(v => (float)v)], [.. Row("scale").Select(v => (float)v)],
            [.. Row("hiddenBias"), .. Rows("hidden").SelectMany(r => r), .. Row("outputBias"), .. Rows("output").SelectMany(r => r)]);
    }

    public static void Score(string folder, IReadOnlyList<FitPiece> pieces, BeatModel model, TextWriter output, bool each)
    {
        var rows = pieces.AsParallel().AsOrdered().Select(p =>
        {
            var row = p.Best(model).Select(b =>
                (Time: p.Graph.Frame(p.Graph.End(b.Step)) / PulseEvidence.FrameRate, Position: BarModel.PositionOf(b.Place))).ToArray();
            var beat = F(p.Truth.Select(b => b.Time), row.Select(b => b.Time));
            var down = F(p.Truth.Where(b => b.PositionInBar == 1).Select(b => b.Time), row.Where(b => b.Position == 1).Select(b => b.Time));
            var tempo = (row[^1].Time - row[0].Time) / (row.Length - 1) / ((p.Truth[^1].Time - p.Truth[0].Time) / (p.Truth.Length - 1));
            return (p.Name, beat, down, tempo);
        }).ToArray();
        if (each)
        {
            foreach (var r in rows)
                output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {r.beat:0.00} {r.down:0.00} {r.tempo:0.00} {r.Name}"));
        }
        var right = rows.Average(r => Math.Abs(r.tempo - 1) < 0.04 ? 1.0 : 0);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{folder}: {rows.Length} beat {rows.Average(r => r.beat):0.000} downbeat {rows.Average(r => r.down):0.000} tempo {right:0.000}"));
    }

    private static double F(IEnumerable<double> truth, IEnumerable<double> heard) =>
        BeatScores.FMeasure(BeatScores.Trimmed(truth, 5), BeatScores.Trimmed(heard, 5)).F;
}
