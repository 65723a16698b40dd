using System.Collections.Immutable;
using System.Text.Json;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Reads lines over the guitar from a JAMS file as <see cref="JamsLine"/> writes them. A file's only pitch_contour is a line though nothing
/// says whose; several that name no instrument are a guitar's strings.
/// </summary>
/// <param name="observations">What a part's data hold.</param>
/// <param name="notes">The notes of a part.</param>
internal sealed class JamsLineReader(
    Func<JsonElement, IEnumerable<(double Time, double Duration, JsonElement Value)>> observations, Func<JsonElement, IEnumerable<ScoredNote>> notes)
{
    public static bool IsLine(JsonElement part) => Text(part, "instrument") is not null;

    /// <param name="sandbox">The file's own.</param>
    /// <returns>Null where the file says nothing of lines.</returns>
    public ImmutableArray<AnnotatedLine>? Read(JsonElement[] contours, JsonElement[] noteParts, JsonElement sandbox)
    {
        var told = Told(sandbox);
        var names = (told ?? []).Concat(contours.Concat(noteParts).Select(p => Text(p, "instrument")).OfType<string>()).Distinct().ToArray();
        if (names.Length > 0)
            return [.. names.Select(name => Line(name, Of(contours, name), Of(noteParts, name)))];
        return contours is [var only] ? [new(null, Melody([only]), [])] : told is null ? null : [];
    }

    private static string[]? Told(JsonElement sandbox) =>
        sandbox.ValueKind == JsonValueKind.Object && sandbox.TryGetProperty("second_instruments", out var names) && names.ValueKind == JsonValueKind.Array
            ? [.. names.EnumerateArray().Select(n => n.GetString() ?? "")]
            : null;

    private static JsonElement[] Of(JsonElement[] parts, string name) => [.. parts.Where(p => Text(p, "instrument") == name)];

    private AnnotatedLine Line(string name, JsonElement[] contours, JsonElement[] parts) => new(
        Enum.TryParse<LineKind>(name, ignoreCase: true, out var kind) ? kind : null,
        Melody(contours),
        [.. parts.SelectMany(Notes).OrderBy(n => n.Note.Onset)],
        parts.Concat(contours).Select(p => PitchName.TryParse(Text(p, "harp_key"), out var key) ? key : (PitchName?)null).FirstOrDefault(k => k is not null));

    private ImmutableArray<AnnotatedPitch> Melody(JsonElement[] contours) =>
        [.. contours.Take(1).SelectMany(observations).Select(o => new AnnotatedPitch(o.Time, HertzOf(o.Value)))];

    private IEnumerable<AnnotatedLineNote> Notes(JsonElement part)
    {
        var holes = Sandbox(part).TryGetProperty("holes", out var list) ? list.EnumerateArray().Select(h => h.GetString()).ToArray() : [];
        return notes(part).Select((note, i) => new AnnotatedLineNote(note, HarpNote.TryParse(holes.ElementAtOrDefault(i), out var hole) ? hole : null));
    }

    private static double? HertzOf(JsonElement value) =>
        value.GetProperty("voiced").GetBoolean() && value.GetProperty("frequency").GetDouble() is > 0 and var hertz ? hertz : null;

    private static string? Text(JsonElement part, string name) => Sandbox(part).TryGetProperty(name, out var text) ? text.GetString() : null;

    private static JsonElement Sandbox(JsonElement part) =>
        part.TryGetProperty("sandbox", out var sandbox) && sandbox.ValueKind == JsonValueKind.Object ? sandbox : Empty;

    private static readonly JsonElement Empty = JsonDocument.Parse("{}").RootElement;
}
