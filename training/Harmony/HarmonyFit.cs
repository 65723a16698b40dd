using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Listening.Estimators;
using Harkbook.Listening.Reading.Harmony;

namespace Harkbook.Training.Harmony;

/// <summary>
/// Fits what models/harmony.json says of the network's spans: how far each word for a key counts, and how sure chords and keys are. How far chords
/// count and how readily they change stays as the file has it.
/// </summary>
internal static class HarmonyFit
{
    /// <summary>The pull toward 0: pieces are few, and most by one composer.</summary>
    private const double Pull = 1;

    private static readonly double[] Temperatures = [0.5, 0.7, 1, 1.4, 2, 2.8, 4];
    private static readonly JsonSerializerOptions Indented = new(JsonSerializerDefaults.Web) { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Run(string file, IReadOnlyList<WeighedPiece> pieces, TextWriter log)
    {
        var weights = HarmonyWeights.ForNetwork;
        weights = weights with { Chords = weights.Chords with { Sureness = new(1, 0) }, Keys = weights.Keys with { Sureness = new(1, 0) } };
        var rows = pieces.Select(p => KeyRow.Of(p, weights)).OfType<KeyRow>().ToList();
        var fitted = SoftmaxFit.Fit(rows, Pull);
        log.WriteLine($"{rows.Count} keys: log loss {SoftmaxFit.LogLoss(rows, fitted):0.000}, right {SoftmaxFit.Right(rows, fitted):0.000}");
        log.WriteLine(string.Join(' ', KeyRow.Names.Zip(fitted, (n, w) => $"{n} {w:0.00}")));
        weights = weights with { Keys = KeyRow.With(weights.Keys, [.. fitted.Select(w => Math.Round(w, 2))]) with { Temperature = Math.Round(1 / Math.Max(0.02, fitted[^1]), 1) } };
        var (chordTemperature, chordLine) = Surest(Temperatures, log,
            t => [.. pieces.SelectMany(p => p.Read(weights with { Chords = weights.Chords with { Temperature = t } }).JudgedChords)]);
        var judgedKeys = pieces.SelectMany(p => p.Read(weights).JudgedKeys).ToList();
        var (keySlope, keyOffset) = CalibrationFit.Fit(judgedKeys);
        log.WriteLine($"keys: {keySlope:0.00} × log-odds + {keyOffset:0.00}, log loss {CalibrationFit.LogLoss(judgedKeys, 1, 0):0.000} to {CalibrationFit.LogLoss(judgedKeys, keySlope, keyOffset):0.000}");
        Write(file, weights with
        {
            Chords = weights.Chords with { Temperature = chordTemperature, Sureness = chordLine },
            Keys = weights.Keys with { Sureness = new(Math.Round(keySlope, 2), Math.Round(keyOffset, 2)) },
        });
    }

    private static (double Temperature, Calibration Line) Surest(double[] temperatures, TextWriter log, Func<double, IReadOnlyList<Judged>> judge)
    {
        var best = (Loss: double.PositiveInfinity, Temperature: 0.0, Line: default(Calibration));
        foreach (var temperature in temperatures)
        {
            var judged = judge(temperature);
            var (slope, offset) = CalibrationFit.Fit(judged);
            var loss = CalibrationFit.LogLoss(judged, slope, offset);
            log.WriteLine($"temperature {temperature}: {slope:0.00} × log-odds + {offset:0.00}, log loss {loss:0.000}");
            if (loss < best.Loss)
                best = (loss, temperature, new(Math.Round(slope, 2), Math.Round(offset, 2)));
        }
        return (best.Temperature, best.Line);
    }

    private static void Write(string file, HarmonyWeights weights)
    {
        var root = JsonNode.Parse(File.ReadAllText(file))!;
        root["network"] = JsonSerializer.SerializeToNode(weights, Indented);
        root["date"] = DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        File.WriteAllText(file, root.ToJsonString(Indented) + "\n");
    }
}
