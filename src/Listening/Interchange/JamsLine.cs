using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// A second instrument in a JAMS file: its pitch as the file's only pitch_contour annotation (several are a guitar's strings),
/// its notes as a note_midi annotation whose sandbox names the "instrument" and, for a harmonica, harp_key, harp_position and
/// "holes" (one a note, as "-3''"). The file's own sandbox says "second_instrument", "none" included.
/// </summary>
internal static class JamsLine
{
    public static bool IsLine(JsonElement part) => Sandbox(part).TryGetProperty("instrument", out _);

    public static SecondInstrumentKind? KindIn(JsonElement sandbox) =>
        sandbox.ValueKind == JsonValueKind.Object && sandbox.TryGetProperty("second_instrument", out var name)
        && Enum.TryParse<SecondInstrumentKind>(name.GetString(), ignoreCase: true, out var kind) ? kind : null;

    public static PitchName? HarpKey(JsonElement part) =>
        Sandbox(part).TryGetProperty("harp_key", out var key) && PitchName.TryParse(key.GetString(), out var name) ? name : null;

    public static ImmutableArray<AnnotatedPitch> Melody(JsonElement[] contours, Func<JsonElement, IEnumerable<(double Time, double Duration, JsonElement Value)>> observations) =>
        contours.Length != 1 ? [] : [.. observations(contours[0]).Select(o => new AnnotatedPitch(o.Time, HertzOf(o.Value)))];

    public static IEnumerable<AnnotatedLineNote> Notes(JsonElement part, Func<JsonElement, IEnumerable<ScoredNote>> notes)
    {
        var holes = Sandbox(part).TryGetProperty("holes", out var list) ? list.EnumerateArray().Select(h => h.GetString()).ToArray() : [];
        return notes(part).Select((note, i) => new AnnotatedLineNote(note, HarpNote.TryParse(holes.ElementAtOrDefault(i), out var hole) ? hole : null));
    }

    /// <summary>The pitch and the notes that were heard; nothing where there is no second instrument.</summary>
    public static IEnumerable<JsonObject> Parts(Hearing hearing, double length)
    {
        var (heard, a4) = (hearing.SecondInstrument, hearing.ReferencePitch.Best);
        if (heard.Notes.IsEmpty)
            return [];
        var contour = Enumerable.Range(0, heard.Contour.Frames)
            .Select(f => (f * heard.Contour.Hop.Value, heard.Contour.PitchAt(f, a4)?.Value, (double?)heard.Contour.Confidence[f]));
        var offset = Cents.Between(Hertz.A440, a4).Value;
        var notes = heard.Notes.Select(n => JamsDocument.Observation(n.Onset.Value, (n.End - n.Onset).Value, Math.Round(n.Midi + (offset + n.Off.Value) / 100, 4), n.Confidence));
        return [Contour(length, heard.Contour.Hop.Value, contour), Notes(length, notes, SandboxOf(heard))];
    }

    /// <summary>The pitch and the notes that an annotation tells; nothing of what it doesn't.</summary>
    public static IEnumerable<JsonObject> Parts(Annotation annotation, double length)
    {
        if (annotation.Melody is [var first, var second, ..])
            yield return Contour(length, second.Time - first.Time, annotation.Melody.Select(p => (p.Time, p.Hertz, (double?)null)));
        if (annotation.LineNotes.IsEmpty)
            yield break;
        var sandbox = new JsonObject { ["instrument"] = NameOf(annotation.SecondInstrument ?? SecondInstrumentKind.None) };
        if (annotation.HarpKey is { } key)
            sandbox["harp_key"] = key.ToString();
        sandbox["holes"] = new JsonArray([.. annotation.LineNotes.Select(n => (JsonNode?)n.Hole?.ToString())]);
        yield return Notes(length, annotation.LineNotes.Select(n => JamsDocument.Observation(n.Note.Onset, n.Note.End - n.Note.Onset, Math.Round(n.Note.Midi, 4), null)), sandbox);
    }

    private static JsonObject Notes(double length, IEnumerable<JsonObject> notes, JsonObject sandbox)
    {
        var part = JamsDocument.Part("note_midi", length, notes);
        part["sandbox"] = sandbox;
        return part;
    }

    private static JsonObject SandboxOf(HeardSecondInstrument heard)
    {
        var sandbox = new JsonObject
        {
            ["instrument"] = NameOf(heard.Kind.Best),
            ["instrument_confidence"] = Math.Round(heard.Kind.Confidence, 4),
        };
        if (heard.Harp is not { } harp)
            return sandbox;
        sandbox["harp_key"] = harp.Best.Key.ToString();
        sandbox["harp_key_confidence"] = Math.Round(harp.Confidence, 4);
        sandbox["harp_position"] = harp.Best.Position;
        sandbox["holes"] = new JsonArray([.. heard.Notes.Select(n => (JsonNode?)n.Holes?.Best.ToString())]);
        return sandbox;
    }

    /// <summary>A contour as one list a column, moments where nothing sounds included.</summary>
    private static JsonObject Contour(double length, double hop, IEnumerable<(double Time, double? Hertz, double? Confidence)> moments)
    {
        var all = moments.ToArray();
        var part = JamsDocument.Part("pitch_contour", length, []);
        part["data"] = new JsonObject
        {
            ["time"] = Column(all, m => Math.Round(m.Time, 6)),
            ["duration"] = Column(all, _ => Math.Round(hop, 6)),
            ["value"] = Column(all, m => new JsonObject { ["index"] = 0, ["frequency"] = Math.Round(m.Hertz ?? 0, 3), ["voiced"] = m.Hertz is not null }),
            ["confidence"] = Column(all, m => m.Confidence is { } sure ? Math.Round(sure, 4) : null),
        };
        return part;
    }

    private static JsonArray Column<T>(T[] moments, Func<T, JsonNode?> value) => [.. moments.Select(value)];

    public static string NameOf(SecondInstrumentKind kind) => kind.ToString().ToLowerInvariant();

    private static double? HertzOf(JsonElement value) =>
        value.GetProperty("voiced").GetBoolean() && value.GetProperty("frequency").GetDouble() is > 0 and var hertz ? hertz : null;

    private static JsonElement Sandbox(JsonElement part) =>
        part.TryGetProperty("sandbox", out var sandbox) && sandbox.ValueKind == JsonValueKind.Object ? sandbox : Empty;

    private static readonly JsonElement Empty = JsonDocument.Parse("{}").RootElement;
}
