using System.Text.Json;

namespace Harkbook.Bench.Sureness;

/// <summary>How often the estimates of one kind, given between two sureness bounds, were right on some material.</summary>
/// <param name="Right">The share right, 0 to 1.</param>
/// <param name="Count">How many estimates that rests on.</param>
internal sealed record Judged(string Kind, double From, double To, double Right, int Count)
{
    /// <summary>Reads what 'harkbook eval FOLDER --json' printed.</summary>
    public static Judged[] Read(string path)
    {
        using var file = JsonDocument.Parse(File.ReadAllText(path));
        return [.. file.RootElement.GetProperty("how sure").EnumerateArray().Select(r => new Judged(
            r.GetProperty("kind").GetString()!, r.GetProperty("from").GetDouble(), r.GetProperty("to").GetDouble(), r.GetProperty("right").GetDouble(), r.GetProperty("count").GetInt32()))];
    }
}
