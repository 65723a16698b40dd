using System.Text.Json;
using Harkbook.Bench.Sureness;

namespace Harkbook.Bench.Accuracy;

/// <summary>What 'harkbook eval FOLDER --json' printed: means over a folder's recordings, and how sure estimates were.</summary>
internal sealed class EvalFile
{
    private const string Mean = "all, mean";

    private readonly Dictionary<string, double> means;

    private EvalFile(Dictionary<string, double> means, Dictionary<string, int> counts, int recordings, Judged[] sureness) =>
        (this.means, Counts, Recordings, Sureness) = (means, counts, recordings, sureness);

    public int Recordings { get; }

    public Judged[] Sureness { get; }

    /// <summary>By measure: how many recordings it could be taken of.</summary>
    private Dictionary<string, int> Counts { get; }

    public static EvalFile Read(string path)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(path));
        var sheets = document.RootElement.EnumerateObject().Where(p => p.Value.ValueKind == JsonValueKind.Object)
            .ToDictionary(p => p.Name, p => Scores(p.Value));
        var means = sheets.GetValueOrDefault(Mean)
            ?? throw new FormatException($"{path}: no '{Mean}' in it; write it with ./harkbook eval FOLDER --json.");
        sheets.Remove(Mean);
        var counts = means.Keys.ToDictionary(m => m, m => sheets.Values.Count(s => s.ContainsKey(m)));
        return new(means, counts, sheets.Count, Judged.Read(path));
    }

    /// <summary>Null where no recording was judged by it.</summary>
    public double? Of(string measure) => means.TryGetValue(measure, out var value) ? value : null;

    /// <summary>How many recordings a measure was taken of.</summary>
    public int CountOf(string measure) => Counts.GetValueOrDefault(measure);

    private static Dictionary<string, double> Scores(JsonElement sheet) => sheet.EnumerateObject().ToDictionary(m => m.Name, m => m.Value.GetDouble());
}
