using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Writes a Hearing as JAMS 0.3 (Humphrey et al., ISMIR 2014). What JAMS has no namespace for stands in the file's
/// sandbox: reference_hz (what A4 is), tuning (open pitches low to high), capo (fret).
/// </summary>
public static class JamsWriter
{
    private static readonly JsonSerializerOptions Layout = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    // From the JAMS 0.3 schema of the namespace chord_harte.
    private static readonly string[] JamsShorthands =
        ["maj", "min", "dim", "aug", "maj7", "min7", "7", "dim7", "hdim7", "minmaj7", "maj6", "min6", "9", "maj9", "min9", "sus4"];

    public static string Write(Hearing hearing)
    {
        var length = hearing.Recording.Length.Value;
        var root = new JsonObject
        {
            ["annotations"] = new JsonArray(
                Part("tempo", length, [Observation(0, length, hearing.Tempo.Best, hearing.Tempo.Confidence)]),
                Part("beat", length, hearing.Beats.Select(b => Observation(b.Time.Value, 0, b.PositionInBar, b.Confidence))),
                Part("chord_harte", length, hearing.Chords.Select(c => Span(c.Start, c.End, ChordLabel(c.Chord.Best), c.Chord.Confidence))),
                Part("key_mode", length, hearing.Keys.Select(k => Span(k.Start, k.End, KeyLabel(k.Key.Best), k.Key.Confidence))),
                Part("segment_open", length, hearing.Sections.Select(s => Span(s.Start, s.End, s.Label, s.Confidence))),
                Part("note_midi", length, Notes(hearing))),
            ["file_metadata"] = new JsonObject
            {
                ["title"] = Path.GetFileNameWithoutExtension(hearing.Recording.Path),
                ["artist"] = "",
                ["release"] = "",
                ["duration"] = length,
                ["identifiers"] = new JsonObject { ["sha256"] = hearing.Recording.ContentHash },
                ["jams_version"] = "0.3.4",
            },
            ["sandbox"] = new JsonObject
            {
                ["reference_hz"] = Math.Round(hearing.ReferencePitch.Best.Value, 3),
                ["tuning"] = new JsonArray([.. hearing.Tuning.Best.Tuning.Strings.Select(p => (JsonNode)p.ToString())]),
                ["capo"] = hearing.Tuning.Best.Capo.Fret,
                ["tuning_confidence"] = Math.Round(hearing.Tuning.Confidence, 4),
                ["meter"] = hearing.Meter.Best.ToString(),
            },
        };
        return root.ToJsonString(Layout) + "\n";
    }

    /// <summary>Note values are MIDI numbers about A440, so the recording's own offset is added.</summary>
    private static IEnumerable<JsonObject> Notes(Hearing hearing)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        return hearing.Notes.Select(n => Observation(n.Onset.Value, (n.End - n.Onset).Value, Math.Round(n.Midi + offset, 4), n.Confidence));
    }

    /// <summary>The namespace chord_harte knows only the paper's own shorthands; others become lists of degrees ("A:(2,5)").</summary>
    private static string ChordLabel(Chord chord)
    {
        var label = HarteLabel.Write(chord);
        var parts = HarteLabel.Split(label);
        if (parts.Sound != HarteSound.Chord || JamsShorthands.Contains(parts.Shorthand))
            return label;
        var degrees = string.Join(',', chord.Quality.Intervals.Skip(1).Select(i => i.DegreeName));
        var bass = label.Contains('/') ? label[label.IndexOf('/')..] : "";
        return $"{chord.Root}:({(degrees.Length == 0 ? "1" : degrees)}){bass}";
    }

    private static string KeyLabel(Key key) => $"{key.Tonic}:{key.Mode}";

    private static JsonObject Span(Seconds start, Seconds end, string label, double confidence) =>
        Observation(start.Value, (end - start).Value, label, confidence);

    private static JsonObject Observation(double time, double duration, JsonNode value, double confidence) => new()
    {
        ["time"] = Math.Round(time, 6),
        ["duration"] = Math.Round(duration, 6),
        ["value"] = value,
        ["confidence"] = Math.Round(Math.Clamp(confidence, 0, 1), 4),
    };

    private static JsonObject Part(string name, double length, IEnumerable<JsonObject> data) => new()
    {
        ["namespace"] = name,
        ["data"] = new JsonArray([.. data]),
        ["annotation_metadata"] = new JsonObject
        {
            ["version"] = typeof(JamsWriter).Assembly.GetName().Version?.ToString(3) ?? "",
            ["corpus"] = "",
            ["annotation_tools"] = "Harkbook",
            ["annotation_rules"] = "",
            ["validation"] = "",
            ["data_source"] = "program",
        },
        ["sandbox"] = new JsonObject(),
        ["time"] = 0,
        ["duration"] = length,
    };
}
