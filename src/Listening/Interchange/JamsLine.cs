using System.Text.Json;
using System.Text.Json.Nodes;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Writes lines over the guitar into a JAMS file: of each its pitch as a pitch_contour annotation and its notes as a note_midi annotation,
/// whose sandboxes name the "instrument" and, for a harmonica, harp_key, harp_position and "holes" (one a note, as "-3''"). The file's own
/// sandbox lists them as "second_instruments"; the list is empty where the guitar is alone. <see cref="JamsLineReader"/> reads them.
/// </summary>
internal static class JamsLine
{
    /// <summary>The pitch and the notes of each line that was heard.</summary>
    public static IEnumerable<JsonObject> Parts(Hearing hearing, double length) =>
        hearing.Lines.Found.SelectMany(line => Parts(line, hearing.ReferencePitch.Best, length));

    /// <summary>The pitch and the notes that an annotation tells; nothing of what it doesn't.</summary>
    public static IEnumerable<JsonObject> Parts(Annotation annotation, double length) =>
        (annotation.Lines ?? []).SelectMany(line => Parts(line, length));

    /// <summary>What a file's sandbox says of all lines.</summary>
    public static JsonArray Names(IEnumerable<LineKind> kinds) => [.. kinds.Select(k => (JsonNode)NameOf(k))];

    private static IEnumerable<JsonObject> Parts(HeardLine line, Hertz a4, double length)
    {
        var contour = Enumerable.Range(0, line.Contour.Frames)
            .Select(f => (f * line.Contour.Hop.Value, line.Contour.PitchAt(f, a4)?.Value, (double?)JamsDocument.Sure(line.Contour.Confidence[f])));
        var offset = Cents.Between(Hertz.A440, a4).Value;
        var notes = line.Notes.Select(n =>
            JamsDocument.Note(new(n.Onset.Value, n.End.Value, n.Midi + (offset + n.Off.Value) / 100), JamsDocument.Sure(n.Confidence)));
        return [In(SandboxOf(line), Contour(length, line.Contour.Hop.Value, contour)), In(SandboxOf(line), JamsDocument.Part("note_midi", length, notes))];
    }

    private static IEnumerable<JsonObject> Parts(AnnotatedLine line, double length)
    {
        if (line.Melody is [var first, var second, ..])
            yield return In(SandboxOf(line), Contour(length, second.Time - first.Time, line.Melody.Select(p => (p.Time, p.Hertz, (double?)null))));
        if (!line.Notes.IsEmpty)
            yield return In(SandboxOf(line), JamsDocument.Part("note_midi", length, line.Notes.Select(n => JamsDocument.Note(n.Note, null))));
    }

    private static JsonObject In(JsonObject sandbox, JsonObject part)
    {
        part["sandbox"] = sandbox;
        return part;
    }

    private static JsonObject SandboxOf(AnnotatedLine line)
    {
        var sandbox = new JsonObject();
        if (line.Kind is { } kind)
            sandbox["instrument"] = NameOf(kind);
        if (line.HarpKey is { } key)
            sandbox["harp_key"] = key.ToString();
        if (line.Notes.Any(n => n.Hole is not null))
            sandbox["holes"] = new JsonArray([.. line.Notes.Select(n => (JsonNode?)n.Hole?.ToString())]);
        return sandbox;
    }

    private static JsonObject SandboxOf(HeardLine line)
    {
        var sandbox = new JsonObject
        {
            ["instrument"] = NameOf(line.Kind.Best),
            ["instrument_confidence"] = JamsDocument.Sure(line.Kind.Confidence),
        };
        if (line.Harp is not { } harp)
            return sandbox;
        sandbox["harp_key"] = harp.Best.Key.ToString();
        sandbox["harp_key_confidence"] = JamsDocument.Sure(harp.Confidence);
        sandbox["harp_position"] = harp.Best.Position;
        sandbox["holes"] = new JsonArray([.. line.Notes.Select(n => (JsonNode?)n.Holes?.Best.ToString())]);
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
            ["confidence"] = Column(all, m => m.Confidence),
        };
        return part;
    }

    private static JsonArray Column<T>(T[] moments, Func<T, JsonNode?> value) => [.. moments.Select(value)];

    private static string NameOf(LineKind kind) => kind.ToString().ToLowerInvariant();
}
