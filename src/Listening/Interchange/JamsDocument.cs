using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Listening.Evaluation;

namespace Harkbook.Listening.Interchange;

/// <summary>The parts that every JAMS 0.3 file is built of (Humphrey et al., ISMIR 2014). Times in seconds.</summary>
internal static class JamsDocument
{
    private const string Version = "0.3.4";
    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <param name="sandbox">What JAMS has no namespace for.</param>
    public static string Write(string title, double length, string? contentHash, IEnumerable<JsonObject> parts, JsonObject sandbox)
    {
        var root = new JsonObject
        {
            ["annotations"] = new JsonArray([.. parts]),
            ["file_metadata"] = new JsonObject
            {
                ["title"] = title,
                ["artist"] = "",
                ["release"] = "",
                ["duration"] = length,
                ["identifiers"] = contentHash is null ? [] : new JsonObject { ["sha256"] = contentHash },
                ["jams_version"] = Version,
            },
            ["sandbox"] = sandbox,
        };
        return root.ToJsonString(Layout) + "\n";
    }

    /// <param name="source">What made the annotation; by the convention of string-wise note annotations, the string's number from 0, the lowest.</param>
    public static JsonObject Part(string name, double length, IEnumerable<JsonObject> data, string source = "program") => new()
    {
        ["namespace"] = name,
        ["data"] = new JsonArray([.. data]),
        ["annotation_metadata"] = new JsonObject
        {
            ["version"] = typeof(JamsDocument).Assembly.GetName().Version?.ToString(3) ?? "",
            ["corpus"] = "",
            ["annotation_tools"] = "Harkbook",
            ["annotation_rules"] = "",
            ["validation"] = "",
            ["data_source"] = source,
        },
        ["sandbox"] = new JsonObject(),
        ["time"] = 0,
        ["duration"] = length,
    };

    /// <param name="confidence">0–1; null where nobody told.</param>
    public static JsonObject Observation(double time, double duration, JsonNode? value, double? confidence) => new()
    {
        ["time"] = Math.Round(Math.Max(0, time), 6),
        ["duration"] = Math.Round(Math.Max(0, duration), 6),
        ["value"] = value,
        ["confidence"] = confidence is { } sure ? Math.Round(Math.Clamp(sure, 0, 1), 4) : null,
    };

    /// <summary>
    /// One annotation a string, as note annotations of guitars have it: data_source is the string's number from 0, the lowest (GuitarSet, Xi et al.,
    /// ISMIR 2018), and the sandbox's string_number the trade's, from 1, the highest. Notes on no known string together.
    /// </summary>
    /// <param name="notes">With their confidence, 0–1; null where nobody told.</param>
    /// <param name="strings">How many strings the guitar has; null where unknown.</param>
    public static IEnumerable<JsonObject> Notes(IEnumerable<(ScoredNote Note, double? Confidence)> notes, double length, int? strings)
    {
        foreach (var group in notes.GroupBy(n => n.Note.StringIndex).OrderBy(g => g.Key ?? int.MaxValue))
        {
            var data = group.Select(n => Observation(n.Note.Onset, n.Note.End - n.Note.Onset, Math.Round(n.Note.Midi, 6), n.Confidence));
            var part = Part("note_midi", length, data, group.Key?.ToString(CultureInfo.InvariantCulture) ?? "program");
            if (group.Key is { } index && strings is { } count)
                part["sandbox"]!["string_number"] = count - index;
            yield return part;
        }
    }
}
