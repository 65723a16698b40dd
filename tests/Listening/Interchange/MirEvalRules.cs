using System.Text.Json;

namespace Harkbook.Listening.Tests.Interchange;

/// <summary>
/// What the evaluation library mir_eval 0.7 (Raffel et al., ISMIR 2014) asks of a file before it scores it, written again after its source: util.py,
/// validate_intervals and validate_events; chord.py, directional_hamming_distance ("Chord Intervals must not overlap"); beat.py, validate;
/// segment.py, validate_structure (whose start at 0 evaluate sees to itself); transcription.py, validate; tempo.py, validate_tempi; melody.py, validate. An
/// interval ends at time + duration,
/// added in binary floating point, as readers of JAMS add them.
/// </summary>
internal static class MirEvalRules
{
    private const double MostSeconds = 30_000;

    /// <summary>What the library would refuse, each with its namespace and place; empty where it would score the file.</summary>
    public static string[] Breaches(string jams)
    {
        using var document = JsonDocument.Parse(jams);
        return [.. document.RootElement.GetProperty("annotations").EnumerateArray().SelectMany(OfPart)];
    }

    private static IEnumerable<string> OfPart(JsonElement part)
    {
        var name = part.GetProperty("namespace").GetString()!;
        var (times, ends, values) = Columns(part.GetProperty("data"));
        var breaches = name switch
        {
            "beat" or "pitch_contour" => Events(times),
            "chord_harte" or "key_mode" or "segment_open" => [.. Intervals(times, ends), .. Overlaps(times, ends)],
            "note_midi" => Intervals(times, ends),
            "tempo" => values.Where(v => !(v.GetDouble() >= 0)).Select(v => $"a tempo of {v}"),
            _ => ["an unknown namespace"],
        };
        return breaches.Select(b => $"{name}: {b}");
    }

    private static IEnumerable<string> Events(double[] times) =>
        times.Where(t => t > MostSeconds).Select(t => $"{t} is a huge time")
            .Concat(times.Zip(times.Skip(1)).Where(t => t.Second < t.First).Select(t => $"{t.Second} after {t.First}"));

    private static IEnumerable<string> Intervals(double[] starts, double[] ends) =>
        starts.Zip(ends).Where(i => i.First < 0 || i.Second < 0 || i.Second <= i.First).Select(i => $"from {i.First:R} to {i.Second:R}");

    private static IEnumerable<string> Overlaps(double[] starts, double[] ends) =>
        ends.Zip(starts.Skip(1)).Where(i => i.First > i.Second).Select(i => $"one ends at {i.First:R}, the next starts at {i.Second:R}");

    private static (double[] Times, double[] Ends, JsonElement[] Values) Columns(JsonElement data)
    {
        if (data.ValueKind == JsonValueKind.Array)
        {
            var rows = data.EnumerateArray().ToArray();
            return (Numbers(rows.Select(r => r.GetProperty("time"))), [.. rows.Select(End)], [.. rows.Select(r => r.GetProperty("value"))]);
        }
        var times = Numbers(data.GetProperty("time").EnumerateArray());
        var durations = Numbers(data.GetProperty("duration").EnumerateArray());
        return (times, [.. times.Zip(durations, (time, duration) => time + duration)], [.. data.GetProperty("value").EnumerateArray()]);
    }

    private static double End(JsonElement row) => row.GetProperty("time").GetDouble() + row.GetProperty("duration").GetDouble();

    private static double[] Numbers(IEnumerable<JsonElement> elements) => [.. elements.Select(e => e.GetDouble())];
}
