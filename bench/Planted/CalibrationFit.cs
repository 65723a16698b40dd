using System.Text.Json.Nodes;
using Harkbook.Listening.Checking;
using MathNet.Numerics.LinearAlgebra.Double;

namespace Harkbook.Bench.Planted;

/// <summary>
/// Fits how findings become probabilities: for each kind of claim a logistic regression over the finding's log-odds and clues, right claims of right
/// transcriptions against planted errors, these weighed as rare as <see cref="Rare"/>; and the probability below which as many right claims a minute lie as
/// are allowed.
/// </summary>
internal sealed class CalibrationFit(PlantedRun run)
{
    /// <summary>How many claims of a transcription that a person has decided are taken to be wrong: one in twenty.</summary>
    private const double Rare = 0.05;

    /// <summary>Fewer planted errors than this fit nothing.</summary>
    private const int Fewest = 6;

    /// <summary>How far weights are held to 0, for each right claim and at least.</summary>
    private const double Ridge = 1e-3, LeastRidge = 0.3;

    public JsonObject Fit(double alarmsAMinute, string command, string data, DateOnly date)
    {
        var lines = Enum.GetValues<ClaimKind>().Select(k => (Kind: k, Line: Line(k))).Where(l => l.Line is not null).ToDictionary(l => l.Kind, l => l.Line!);
        var supports = run.Right.Where(r => r.Finding.LogOdds is not null && lines.ContainsKey(r.Finding.Kind))
            .Select(r => Probability(lines[r.Finding.Kind], r.Finding)).Order().ToArray();
        var allowed = (int)Math.Floor(alarmsAMinute * run.Minutes.Values.Sum());
        var threshold = allowed < supports.Length ? supports[allowed] : 1;
        return new()
        {
            ["what"] = "How the log-odds of a check's findings become the probability that a claim is right: as log-odds again, slope * log-odds + "
                + "offset + what its clues are worth, for each kind of claim; and the probabilities below which a claim is doubtful or contradicted.",
            ["fields"] = new JsonObject
            {
                ["doubtfulBelow"] = "probability; the right songs that it was fitted on have falseAlarmsPerMinute claims below it",
                ["contradictedBelow"] = "probability; likelier wrong than right, or half of doubtfulBelow where that is less",
                ["kinds"] = "a line for each kind: slope, offset, and what each clue that a finding carries is worth",
                ["otherKinds"] = "the line of a kind that wasn't fitted",
            },
            ["command"] = command,
            ["data"] = data,
            ["date"] = date.ToString("yyyy-MM-dd"),
            ["falseAlarmsPerMinute"] = alarmsAMinute,
            ["doubtfulBelow"] = Math.Round(threshold, 4),
            ["contradictedBelow"] = Math.Round(Math.Min(0.5, threshold / 2), 4),
            ["kinds"] = new JsonObject(lines.Select(l => KeyValuePair.Create<string, JsonNode?>(l.Key.ToString(), Json(l.Value)))),
            ["otherKinds"] = new JsonObject { ["slope"] = 1, ["offset"] = Math.Round(Math.Log((1 - Rare) / Rare), 3) },
        };
    }

    private static JsonObject Json(Fitted line)
    {
        var json = new JsonObject { ["slope"] = Math.Round(line.Weights[1], 4), ["offset"] = Math.Round(line.Weights[0], 4) };
        if (line.Clues.Length > 0)
            json["clues"] = new JsonObject(line.Clues.Select((c, i) => KeyValuePair.Create<string, JsonNode?>(c, Math.Round(line.Weights[i + 2], 4))));
        return json;
    }

    private static double Probability(Fitted line, Finding finding) => Chance(line.Weights, Row(finding, line.Clues));

    private Fitted? Line(ClaimKind kind)
    {
        var right = run.Right.Select(r => r.Finding).Where(f => f.Kind == kind && f.LogOdds is not null).ToArray();
        var wrong = run.Planted.SelectMany(p => p.ByKind).Where(f => f.Kind == kind && f.LogOdds is not null).ToArray();
        if (right.Length < (kind == ClaimKind.Silence ? 1 : Fewest) || wrong.Length < Fewest)
            return null;
        string[] clues = [.. right.Concat(wrong).SelectMany(f => f.Clues.Keys).Distinct().Order(StringComparer.Ordinal)];
        // Silence is claimed wherever nothing more is written than is: about as often as something is.
        var claims = kind != ClaimKind.Silence ? right.Length
            : Math.Max(right.Length, run.Right.Count(r => r.Finding.Kind is ClaimKind.Note or ClaimKind.Stroke));
        var ofWrong = Rare / (1 - Rare) * claims / wrong.Length;
        var rows = right.Select(f => (Row(f, clues), 1.0, 1.0)).Concat(wrong.Select(f => (Row(f, clues), 0.0, ofWrong))).ToArray();
        return new(clues, Regressed(rows, clues.Length + 2, right.Length));
    }

    private static double[] Row(Finding finding, string[] clues) =>
        [1, finding.LogOdds!.Value, .. clues.Select(c => finding.Clues.TryGetValue(c, out var value) ? value : 0)];

    /// <summary>By Newton's method (iteratively reweighted least squares) with a small ridge.</summary>
    private static double[] Regressed((double[] Row, double Label, double Weight)[] rows, int width, double count)
    {
        var weights = new double[width];
        for (var step = 0; step < 50; step++)
        {
            var (gradient, hessian) = (new double[width], new double[width, width]);
            for (var i = 0; i < width; i++)
            {
                gradient[i] = i == 0 ? 0 : -Math.Max(Ridge * count, LeastRidge) * weights[i];
                hessian[i, i] = Math.Max(Ridge * count, LeastRidge);
            }
            foreach (var (row, label, weight) in rows)
            {
                var chance = Chance(weights, row);
                for (var i = 0; i < width; i++)
                {
                    gradient[i] += weight * (label - chance) * row[i];
                    for (var j = 0; j < width; j++)
                        hessian[i, j] += weight * Math.Max(1e-6, chance * (1 - chance)) * row[i] * row[j];
                }
            }
            var change = DenseMatrix.OfArray(hessian).Solve(DenseVector.OfArray(gradient));
            var most = change.AbsoluteMaximum();
            for (var i = 0; i < width; i++)
                weights[i] += change[i] * Math.Min(1, 2 / Math.Max(most, 1e-9));
            if (most < 1e-6)
                break;
        }
        return weights;
    }

    private static double Chance(double[] weights, double[] row) => 1 / (1 + Math.Exp(-weights.Zip(row, (w, v) => w * v).Sum()));

    private sealed record Fitted(string[] Clues, double[] Weights);
}
