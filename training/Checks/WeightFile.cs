using System.Text.Encodings.Web;
using System.Text.Json;
using Harkbook.Music.Theory;

namespace Harkbook.Training.Checks;

/// <summary>Writes models/weighers.json.</summary>
internal static class WeightFile
{
    private static readonly JsonSerializerOptions Format = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static void Write(string path, IEnumerable<IGrouping<string, Example>> weighers, string data, DateOnly date) =>
        File.WriteAllText(path, JsonSerializer.Serialize(new
        {
            what = "What each feature of a claim is worth to a check: bias + sum of weight * feature are the log-odds that the claim is right, "
                + "of claims that are as often wrong.",
            fields = new { weighers = "one for each kind of claim; the features are named and told where they are measured, in src/Listening/Checking" },
            command = "dotnet run -c Release --project training/Checks -- fit FOLDER models/weighers.json",
            data,
            date = date.ToString("yyyy-MM-dd"),
            weighers = weighers.ToDictionary(g => g.Key, g => Fitted([.. g])),
        }, Format) + "\n");

    private static object Fitted(IReadOnlyList<Example> examples)
    {
        var weights = LogisticFit.Of(examples);
        var named = examples[0].Features.Select((f, i) => (f.Name, Weight: Rounded(weights[i + 1]))).ToDictionary(w => w.Name, w => w.Weight);
        return new { bias = Rounded(weights[0]), weights = named };
    }

    private static double Rounded(double value) => Math.Round(value, 4);
}
