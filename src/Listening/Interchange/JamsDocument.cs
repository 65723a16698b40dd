using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Music.Songs;

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

    /// <summary>The confidence of what was heard: nothing heard is certain.</summary>
    public static double Sure(double confidence) => Math.Round(Math.Clamp(confidence, 0, Standing.MostHeard), 4);

    /// <summary>What is said of a moment.</summary>
    /// <param name="confidence">0–1; null where nobody told.</param>
    public static JsonObject Observation(double time, JsonNode? value, double? confidence) => Observation(new JamsInterval(time, time), value, confidence);

    /// <summary>What is said of a time from start to end.</summary>
    /// <param name="confidence">0–1; null where nobody told.</param>
    public static JsonObject Observation(JamsInterval interval, JsonNode? value, double? confidence) => new()
    {
        ["time"] = interval.Time,
        ["duration"] = interval.Duration,
        ["value"] = value,
        ["confidence"] = confidence,
    };

    /// <summary>Values that hold one after another: each ends where the next begins at the latest, and none lasts no time.</summary>
    public static IEnumerable<JsonObject> Successive(IEnumerable<JamsSpan> spans)
    {
        var sorted = spans.OrderBy(s => s.Start).ToArray();
        foreach (var (span, next) in sorted.Zip(sorted.Skip(1).Select(s => s.Start).Append(double.PositiveInfinity)))
        {
            var interval = new JamsInterval(span.Start, Math.Min(span.End, next));
            if (interval.Duration > 0)
                yield return Observation(interval, span.Value, span.Confidence);
        }
    }

    /// <param name="confidence">0–1; null where nobody told.</param>
    public static JsonObject Note(ScoredNote note, double? confidence) =>
        Observation(JamsInterval.Sounding(note.Onset, note.End), Math.Round(note.Midi, 6), confidence);

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
            var data = group.Select(n => Note(n.Note, n.Confidence));
            var part = Part("note_midi", length, data, group.Key?.ToString(CultureInfo.InvariantCulture) ?? "program");
            if (group.Key is { } index && strings is { } count)
                part["sandbox"]!["string_number"] = count - index;
            yield return part;
        }
    }
}
