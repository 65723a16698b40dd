using System.Text.Json.Nodes;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Writes a Hearing, or an annotation, as JAMS 0.3 (Humphrey et al., ISMIR 2014). What JAMS has no namespace for stands in
/// the file's sandbox: reference_hz (what A4 is), tuning (open pitches low to high), capo (fret), second_instruments (see
/// <see cref="JamsLine"/>).
/// </summary>
public static class JamsWriter
{
    public static string Write(Hearing hearing)
    {
        var length = hearing.Recording.Length.Value;
        return JamsDocument.Write(
            Path.GetFileNameWithoutExtension(hearing.Recording.Path), length, hearing.Recording.ContentHash,
            [
                JamsDocument.Part("tempo", length, [JamsDocument.Observation(0, length, hearing.Tempo.Best, hearing.Tempo.Confidence)]),
                JamsDocument.Part("beat", length, hearing.Beats.Select(b => JamsDocument.Observation(b.Time.Value, 0, b.PositionInBar, b.Confidence))),
                JamsDocument.Part("chord_harte", length, hearing.Chords.Select(c => Span(c.Start, c.End, JamsLabel.Of(c.Chord.Best), c.Chord.Confidence))),
                JamsDocument.Part("key_mode", length, hearing.Keys.Select(k => Span(k.Start, k.End, JamsLabel.Of(k.Key.Best), k.Key.Confidence))),
                JamsDocument.Part("segment_open", length, hearing.Sections.Select(s => Span(s.Start, s.End, s.Label, s.Confidence))),
                .. Notes(hearing, length),
                .. JamsLine.Parts(hearing, length),
            ],
            new JsonObject
            {
                ["reference_hz"] = Math.Round(hearing.ReferencePitch.Best.Value, 3),
                ["tuning"] = Strings(hearing.Tuning.Best.Tuning),
                ["capo"] = hearing.Tuning.Best.Capo.Fret,
                ["tuning_confidence"] = Math.Round(hearing.Tuning.Confidence, 4),
                ["meter"] = hearing.Meter.Best.ToString(),
                ["second_instruments"] = JamsLine.Names(hearing.Lines.Found.Select(l => l.Kind.Best)),
                ["guitar_alone_confidence"] = Math.Round(hearing.Lines.Alone, 4),
            });
    }

    /// <summary>Writes what an annotation says; what it doesn't say is left out, and so are chords that nobody named.</summary>
    /// <param name="title">The recording's title.</param>
    public static string Write(Annotation annotation, string title)
    {
        var length = annotation.Duration ?? 0;
        return JamsDocument.Write(title, length, null, Parts(annotation, length).Where(p => p["data"] is not JsonArray { Count: 0 }), Sandbox(annotation));
    }

    private static IEnumerable<JsonObject> Parts(Annotation annotation, double length) =>
    [
        JamsDocument.Part("tempo", length, annotation.Tempo is { } tempo ? [JamsDocument.Observation(0, length, tempo, 1)] : []),
        JamsDocument.Part("beat", length, annotation.Beats.Select(b => JamsDocument.Observation(b.Time, 0, b.PositionInBar, null))),
        JamsDocument.Part("chord_harte", length, Spans(annotation.Chords, JamsLabel.OfChord)),
        JamsDocument.Part("key_mode", length, Spans(annotation.Keys, JamsLabel.OfKey)),
        JamsDocument.Part("segment_open", length, Spans(annotation.Sections, label => label)),
        .. JamsDocument.Notes(annotation.Notes.Select(n => (n, (double?)null)), length, annotation.Tuning?.Count),
        .. JamsLine.Parts(annotation, length),
    ];

    private static JsonObject Sandbox(Annotation annotation)
    {
        var sandbox = new JsonObject();
        if (annotation.ReferenceHertz is { } hertz)
            sandbox["reference_hz"] = hertz;
        if (annotation.Tuning is { } tuning)
            sandbox["tuning"] = Strings(tuning);
        if (annotation.Capo is { } capo)
            sandbox["capo"] = capo;
        if (annotation.Lines is { } lines && lines.All(l => l.Kind is not null))
            sandbox["second_instruments"] = JamsLine.Names(lines.Select(l => l.Kind!.Value));
        return sandbox;
    }

    /// <summary>Note values are MIDI numbers about A440, so the recording's own offset is added.</summary>
    private static IEnumerable<JsonObject> Notes(Hearing hearing, double length)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        return JamsDocument.Notes(
            hearing.Notes.Select(n => (new ScoredNote(n.Onset.Value, n.End.Value, Math.Round(n.Midi + offset, 4), n.Place?.StringIndex), (double?)n.Confidence)),
            length, hearing.Tuning.Best.Tuning.Count);
    }

    private static JsonArray Strings(Tuning tuning) => [.. tuning.Strings.Select(p => (JsonNode)p.ToString())];

    private static JsonObject Span(Seconds start, Seconds end, string label, double confidence) =>
        JamsDocument.Observation(start.Value, (end - start).Value, label, confidence);

    private static IEnumerable<JsonObject> Spans(IEnumerable<AnnotatedSpan> spans, Func<string, string?> label) =>
        spans.Select(s => (Span: s, Label: label(s.Label))).Where(s => s.Label is not null)
            .Select(s => JamsDocument.Observation(s.Span.Start, s.Span.End - s.Span.Start, s.Label, null));
}
