using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using Harkbook.Training.Checks;

namespace Harkbook.Training.Tunes;

/// <summary>Fits what a tune's note weighs, says how well it tells right from wrong on songs that it wasn't fitted on, and writes models/tune.json.</summary>
internal static class FittedTune
{
    private static readonly JsonSerializerOptions Format = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(string path, IReadOnlyList<Example> examples, DateOnly date)
    {
        var judged = examples.GroupBy(e => e.Piece).SelectMany(piece => Judged([.. examples.Where(e => e.Piece != piece.Key)], [.. piece])).ToList();
        var wrong = judged.Where(e => !e.IsRight).GroupBy(e => e.Error).Select(g => $"{g.Key}: {g.Count()}, told wrong {g.Count(e => e.LogOdds < 0)}");
        Console.WriteLine($"each song by the others: {judged.Count(e => e.IsRight)} right notes, {judged.Count(e => e.IsRight && e.LogOdds > 0)} of them told "
            + $"right; {string.Join("; ", wrong)}");
        var weights = LogisticFit.Of(examples);
        var named = examples[0].Features.Select((f, i) => (f.Name, Weight: Math.Round(weights[i + 1], 4))).ToDictionary(w => w.Name, w => w.Weight);
        File.WriteAllText(path, JsonSerializer.Serialize(new
        {
            what = "What each feature of a claimed note of a tune is worth to a check: bias + sum of weight * feature are the log-odds that the note is right, "
                + "of notes that are as often wrong.",
            fields = new { weighers = "the features are named and told in src/Listening/Checking/Lines/TuneFeatures.cs" },
            command = "dotnet run -c Release --project training/Tunes -- FOLDER models/tune.json",
            data = $"{examples.Select(e => e.Piece).Distinct().Count()} made songs with a voice of training/Checks (make FOLDER 3100 18 FONT), "
                + $"{examples.Count(e => e.IsRight)} notes, each right once and planted wrong up to five times",
            date = date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            weighers = new { TuneNote = new { bias = Math.Round(weights[0], 4), weights = named } },
        }, Format) + "\n");
    }

    private static IEnumerable<(bool IsRight, string Error, double LogOdds)> Judged(IReadOnlyList<Example> others, IReadOnlyList<Example> piece)
    {
        var weights = LogisticFit.Of(others);
        return piece.Select(e => (e.IsRight, e.Error, LogisticFit.Weigh(weights, e.Features)));
    }
}
