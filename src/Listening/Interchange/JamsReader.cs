using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Reads JAMS (Humphrey et al., ISMIR 2014): beat and beat_position, chord and chord_harte, key_mode, tempo, note_midi
/// and note_hz (one annotation a string where data_source says which), segment_open, and lines over the guitar
/// (<see cref="JamsLineReader"/>). Of several annotations of a kind
/// the first counts, but every note annotation does.
/// </summary>
public static class JamsReader
{
    public static Annotation Read(string path)
    {
        using var stream = File.OpenRead(path);
        try
        {
            using var document = JsonDocument.Parse(stream);
            return Read(document.RootElement);
        }
        catch (JsonException e)
        {
            throw new AnnotationException(
                $"{path}, line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: this isn't JSON, which a JAMS file is written in. Export it again.", e);
        }
        catch (KeyNotFoundException e)
        {
            throw new AnnotationException($"{path}: not a JAMS file: it needs file_metadata and annotations, each annotation a namespace and data, each "
                + "observation time, duration and value.", e);
        }
        catch (InvalidOperationException e)
        {
            throw new AnnotationException($"{path}: not a JAMS file: a value is of another kind than JAMS 0.3 gives it, such as text in place of a number.", e);
        }
        catch (Exception e) when (e is FormatException or ArgumentException)
        {
            throw new AnnotationException($"{path}: a value can't be read: {e.Message}", e);
        }
    }

    private static Annotation Read(JsonElement root)
    {
        var parts = root.GetProperty("annotations").EnumerateArray().ToArray();
        var sandbox = root.TryGetProperty("sandbox", out var s) && s.ValueKind == JsonValueKind.Object ? s : default;
        return new Annotation
        {
            Duration = Number(root.GetProperty("file_metadata"), "duration"),
            Beats = Beats(parts),
            Chords = Spans(parts, ["chord", "chord_harte"], label => label),
            Keys = Spans(parts, ["key_mode"], KeyName),
            Notes = [.. Named(parts, "note_midi", "note_hz").Where(p => !JamsLineReader.IsLine(p)).SelectMany(Notes).OrderBy(n => n.Onset).ThenBy(n => n.Midi)],
            Sections = Spans(parts, ["segment_open", "segment_salami_upper", "segment_salami_function"], label => label),
            Tempo = Named(parts, "tempo").SelectMany(Observations).Select(o => (double?)o.Value.GetDouble()).FirstOrDefault(),
            ReferenceHertz = Number(sandbox, "reference_hz"),
            Tuning = ReadTuning(sandbox),
            Capo = (int?)Number(sandbox, "capo"),
            Lines = new JamsLineReader(Observations, Notes).Read([.. Named(parts, "pitch_contour")], [.. Named(parts, "note_midi", "note_hz")], sandbox),
        };
    }

    private static IEnumerable<JsonElement> Named(JsonElement[] parts, params string[] names) =>
        parts.Where(p => names.Contains(p.GetProperty("namespace").GetString()));

    private static ImmutableArray<AnnotatedBeat> Beats(JsonElement[] parts) =>
        Named(parts, "beat", "beat_position").Take(1).SelectMany(Observations)
            .Select(o => new AnnotatedBeat(o.Time, Position(o.Value)))
            .OrderBy(b => b.Time)
            .ToImmutableArray();

    private static int? Position(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Number => (int)Math.Round(value.GetDouble()),
        JsonValueKind.Object => (int?)Number(value, "position"),
        _ => null,
    };

    private static ImmutableArray<AnnotatedSpan> Spans(JsonElement[] parts, string[] names, Func<string, string> label) =>
        Named(parts, names).Take(1).SelectMany(Observations)
            .Select(o => new AnnotatedSpan(o.Time, o.Time + o.Duration, label(o.Value.GetString() ?? "")))
            .OrderBy(o => o.Start)
            .ToImmutableArray();

    private static IEnumerable<ScoredNote> Notes(JsonElement part)
    {
        var hertz = part.GetProperty("namespace").GetString() == "note_hz";
        int? stringIndex = part.TryGetProperty("annotation_metadata", out var meta)
            && meta.TryGetProperty("data_source", out var source)
            && int.TryParse(source.ValueKind == JsonValueKind.String ? source.GetString() : null, NumberStyles.None,
                CultureInfo.InvariantCulture, out var index)
            ? index
            : null;
        return Observations(part).Select(o =>
        {
            var value = o.Value.GetDouble();
            return new ScoredNote(o.Time, o.Time + o.Duration, hertz ? 69 + 12 * Math.Log2(value / 440) : value, stringIndex);
        });
    }

    /// <summary>JAMS writes data as a list of observations or as one list a column.</summary>
    private static IEnumerable<(double Time, double Duration, JsonElement Value)> Observations(JsonElement part)
    {
        var data = part.GetProperty("data");
        if (data.ValueKind == JsonValueKind.Array)
        {
            return data.EnumerateArray()
                .Select(o => (o.GetProperty("time").GetDouble(), o.GetProperty("duration").GetDouble(), o.GetProperty("value")));
        }
        var (times, durations) = (data.GetProperty("time").EnumerateArray(), data.GetProperty("duration").EnumerateArray());
        return times.Zip(durations, data.GetProperty("value").EnumerateArray())
            .Select(o => (o.First.GetDouble(), o.Second.GetDouble(), o.Third));
    }

    private static double? Number(JsonElement owner, string name) =>
        owner.ValueKind == JsonValueKind.Object && owner.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.Number
            ? value.GetDouble()
            : null;

    private static Tuning? ReadTuning(JsonElement sandbox) =>
        sandbox.ValueKind == JsonValueKind.Object && sandbox.TryGetProperty("tuning", out var value) && value.ValueKind == JsonValueKind.Array
            ? Tuning.Parse(string.Join(' ', value.EnumerateArray().Select(p => p.GetString())))
            : null;

    private static string KeyName(string label)
    {
        var parts = label.Split(':');
        var mode = parts.ElementAtOrDefault(1) switch { null => "major", "ionian" => "major", "aeolian" => "minor", var m => m };
        return $"{parts[0]} {mode}";
    }
}
