using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Listening.Checking;
using MathNet.Numerics.LinearAlgebra.Double;

namespace Harkbook.Bench.Planted;

/// <summary>
/// Fits what findings' log-odds are worth: for each kind of claim a logistic regression over the finding's log-odds and clues, right claims of right
/// transcriptions against planted errors, these weighed as often as claims of the kind are taken to be wrong in each transcription
/// (<see cref="CheckCalibration.Rates"/>), which the regression is told and needn't learn.
/// </summary>
internal sealed class CalibrationFit(PlantedRun run)
{
    /// <summary>Fewer planted errors than this fit nothing.</summary>
    private const int Fewest = 6;

    /// <summary>How far weights are held to 0, for each right claim and at least.</summary>
    private const double Ridge = 1e-3, LeastRidge = 0.3;

    private static readonly JsonSerializerOptions Format = new(JsonSerializerDefaults.Web)
    {
        WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly ImmutableDictionary<(string, string), ImmutableDictionary<ClaimKind, ErrorRate>> rates = run.Right.GroupBy(r => (r.Group, r.Name))
        .ToImmutableDictionary(m => m.Key, m => CheckCalibration.Shipped.Rates([.. m.Select(r => r.Finding)], run.Lengths[m.Key]));

    public string Write(string command, DateOnly date)
    {
        var (kept, lines) = (CheckCalibration.Shipped, Enum.GetValues<ClaimKind>().Select(k => (Kind: k, Line: Line(k))).Where(l => l.Line is not null));
        return new JsonObject
        {
            ["what"] = "How the log-odds of a check's findings become the probability that a claim is right: slope * log-odds + offset + what its clues are "
                + "worth are the log-odds of a claim as often wrong as right; how often claims of the kind are wrong is subtracted, as log-odds.",
            ["fields"] = new JsonObject
            {
                ["falseAlarmsPerMinute"] = "so many right claims a minute may be doubtful, as expected, and one at least; chosen",
                ["neverDoubtful"] = "probability from which on no claim is doubtful; chosen",
                ["errorsPerMinute"] = "so many claims of each kind are taken to be wrong in a minute of what a person has decided; chosen",
                ["mostOftenWrong"] = "the share of a kind's claims that is taken to be wrong at most, however few they are; chosen",
                ["kinds"] = "a line for each kind: slope, offset, and what each clue that a finding carries is worth",
                ["otherKinds"] = "the line of a kind that wasn't fitted",
            },
            ["command"] = command,
            ["data"] = string.Join("; ", run.Lengths.Keys.GroupBy(l => l.Group).Select(g => $"{g.Key}: {g.Count()} transcriptions")),
            ["date"] = date.ToString("yyyy-MM-dd"),
            ["falseAlarmsPerMinute"] = kept.FalseAlarmsPerMinute,
            ["neverDoubtful"] = kept.NeverDoubtful,
            ["errorsPerMinute"] = kept.ErrorsPerMinute,
            ["mostOftenWrong"] = kept.MostOftenWrong,
            ["kinds"] = new JsonObject(lines.Select(l => KeyValuePair.Create<string, JsonNode?>(l.Kind.ToString(), Json(l.Line!)))),
            ["otherKinds"] = new JsonObject { ["slope"] = 1, ["offset"] = 0 },
        }.ToJsonString(Format) + "\n";
    }

    private static JsonObject Json(Fitted line)
    {
        var json = new JsonObject { ["slope"] = Math.Round(line.Weights[1], 4), ["offset"] = Math.Round(line.Weights[0], 4) };
        if (line.Clues.Length > 0)
            json["clues"] = new JsonObject(line.Clues.Select((c, i) => KeyValuePair.Create<string, JsonNode?>(c, Math.Round(line.Weights[i + 2], 4))));
        return json;
    }

    /// <summary>Clues speak for a claim; one that seems to speak against it is misled by the others and left out.</summary>
    private Fitted? Line(ClaimKind kind, params string[] without)
    {
        var right = run.Right.Where(r => r.Finding.Kind == kind && r.Finding.LogOdds is not null).ToArray();
        var wrong = run.Planted.SelectMany(p => p.ByKind.Where(f => f.Kind == kind && f.LogOdds is not null).Select(f => new RightRow(p.Group, p.Name, f)))
            .ToArray();
        if (right.Length == 0 || wrong.Length < Fewest)
            return null;
        string[] clues = [.. right.Concat(wrong).SelectMany(f => f.Finding.Clues.Keys).Distinct().Except(without).Order(StringComparer.Ordinal)];
        var planted = wrong.CountBy(w => (w.Group, w.Name)).ToDictionary();
        Example[] examples =
        [
            .. right.Select(r => new Example(Row(r.Finding, clues), 1, 1, Rate(r, kind).Share)),
            .. wrong.Select(w => new Example(Row(w.Finding, clues), 0, Rate(w, kind).Errors / planted[(w.Group, w.Name)], Rate(w, kind).Share)),
        ];
        var weights = Regressed(examples, clues.Length + 2, right.Length);
        string[] against = [.. clues.Where((_, i) => weights[i + 2] < 0)];
        return against.Length == 0 ? new(clues, weights) : Line(kind, [.. without, .. against]);
    }

    private ErrorRate Rate(RightRow row, ClaimKind kind) => rates[(row.Group, row.Name)][kind];

    private static double[] Row(Finding finding, string[] clues) => [1, finding.LogOdds!.Value, .. clues.Select(c => finding.Clues.GetValueOrDefault(c))];

    /// <summary>By Newton's method (iteratively reweighted least squares) with a small ridge; steps that lead too far are halved.</summary>
    private static double[] Regressed(Example[] examples, int width, double count)
    {
        var (weights, ridge) = (new double[width], Math.Max(Ridge * count, LeastRidge));
        for (var step = 0; step < 50; step++)
        {
            var change = Change(examples, weights, ridge);
            var (before, share) = (Fit(examples, weights, ridge), 1.0);
            while (share > 1e-6 && Fit(examples, Moved(share), ridge) < before)
                share /= 2;
            weights = Moved(share);
            if (share * change.Max(Math.Abs) < 1e-6)
                break;

            double[] Moved(double by) => [.. weights.Zip(change, (w, c) => w + by * c)];
        }
        return weights;
    }

    private static double[] Change(Example[] examples, double[] weights, double ridge)
    {
        var (gradient, hessian) = (new double[weights.Length], new double[weights.Length, weights.Length]);
        for (var i = 0; i < weights.Length; i++)
            (gradient[i], hessian[i, i]) = (i == 0 ? 0 : -ridge * weights[i], ridge);
        foreach (var example in examples)
        {
            var right = example.RightBy(weights);
            for (var i = 0; i < weights.Length; i++)
            {
                gradient[i] += example.Weight * (example.Label - right) * example.Row[i];
                for (var j = 0; j < weights.Length; j++)
                    hessian[i, j] += example.Weight * right * (1 - right) * example.Row[i] * example.Row[j];
            }
        }
        return [.. DenseMatrix.OfArray(hessian).Solve(DenseVector.OfArray(gradient))];
    }

    /// <summary>The log-likelihood of the examples, less what large weights cost.</summary>
    private static double Fit(Example[] examples, double[] weights, double ridge) => examples.Sum(e =>
        e.Weight * Math.Log(Math.Max(1e-300, e.Label > 0 ? e.RightBy(weights) : 1 - e.RightBy(weights)))) - ridge / 2 * weights.Skip(1).Sum(w => w * w);

    private sealed record Fitted(string[] Clues, double[] Weights);

    /// <param name="Label">1 for right.</param>
    /// <param name="Wrong">How often such a claim is wrong, whatever the row.</param>
    private readonly record struct Example(double[] Row, double Label, double Weight, double Wrong)
    {
        /// <summary>The probability that weights give it of being right.</summary>
        public double RightBy(double[] weights) => 1 / (1 + Wrong / (1 - Wrong) * Math.Exp(-weights.Zip(Row, (w, v) => w * v).Sum()));
    }
}
