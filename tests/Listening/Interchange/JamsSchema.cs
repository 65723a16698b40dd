using System.Text.Json;
using Json.Schema;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>Our own schema of what the published descriptions of JAMS 0.3 ask of a file (Fixtures/jams-0.3.schema.json).</summary>
internal static class JamsSchema
{
    private static readonly JsonSchema Schema =
        JsonSchema.FromText(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Fixtures", "jams-0.3.schema.json")));

    /// <summary>What is wrong with a file, each with its place; empty where it is valid.</summary>
    public static string[] Mistakes(string jams)
    {
        using var document = JsonDocument.Parse(jams);
        var result = Schema.Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        return result.IsValid
            ? []
            : [.. (result.Details ?? []).Append(result)
                .SelectMany(d => (d.Errors ?? new Dictionary<string, string>()).Select(e => $"{d.InstanceLocation}: {e.Value}"))];
    }
}
