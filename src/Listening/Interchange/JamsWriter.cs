using System.Text.Json.Nodes;
using Harkbook.Music.Instruments.Strings;
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
                Tempo(hearing.Tempo.Best, JamsDocument.Sure(hearing.Tempo.Confidence), length),
                JamsDocument.Part("beat", length, hearing.Beats.Select(Beat)),
                Part("chord_harte", length, hearing.Chords.Select(c => Span(c.Start, c.End, JamsLabel.Of(c.Chord.Best), c.Chord.Confidence))),
                Part("key_mode", length, hearing.Keys.Select(k => Span(k.Start, k.End, JamsLabel.Of(k.Key.Best), k.Key.Confidence))),
                Part("segment_open", length, hearing.Sections.Select(s => Span(s.Start, s.End, s.Label, s.Confidence))),
                .. Notes(hearing, length),
                .. JamsLine.Parts(hearing, length),
            ],
            new JsonObject
            {
                ["reference_hz"] = Math.Round(hearing.ReferencePitch.Best.Value, 3),
                ["tuning"] = Strings(hearing.Tuning.Best.Tuning),
                ["capo"] = hearing.Tuning.Best.Capo.Fret,
                ["tuning_confidence"] = JamsDocument.Sure(hearing.Tuning.Confidence),
                ["meter"] = hearing.Meter.Best.ToString(),
                ["second_instruments"] = JamsLine.Names(hearing.Lines.Found.Select(l => l.Kind.Best)),
                ["guitar_alone_confidence"] = JamsDocument.Sure(hearing.Lines.Alone),
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
        .. annotation.Tempo is { } tempo ? new[] { Tempo(tempo, 1, length) } : [],
        JamsDocument.Part("beat", length, annotation.Beats.Select(b => JamsDocument.Observation(b.Time, b.PositionInBar, null))),
        Part("chord_harte", length, Spans(annotation.Chords, JamsLabel.OfChord)),
        Part("key_mode", length, Spans(annotation.Keys, JamsLabel.OfKey)),
        Part("segment_open", length, Spans(annotation.Sections, label => label)),
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
            hearing.Notes.Select(n =>
                (new ScoredNote(n.Onset.Value, n.End.Value, Math.Round(n.Midi + offset, 4), n.Place?.StringIndex), (double?)JamsDocument.Sure(n.Confidence))),
            length, hearing.Tuning.Best.Tuning.Count);
    }

    private static JsonArray Strings(Tuning tuning) => [.. tuning.Strings.Select(p => (JsonNode)p.ToString())];

    private static JsonObject Tempo(double beatsAMinute, double confidence, double length) =>
        JamsDocument.Part("tempo", length, [JamsDocument.Observation(new JamsInterval(0, length), beatsAMinute, confidence)]);

    private static JsonObject Beat(HeardBeat beat) => JamsDocument.Observation(beat.Time.Value, beat.PositionInBar, JamsDocument.Sure(beat.Confidence));

    private static JsonObject Part(string name, double length, IEnumerable<JamsSpan> spans) => JamsDocument.Part(name, length, JamsDocument.Successive(spans));

    private static JamsSpan Span(Seconds start, Seconds end, string label, double confidence) =>
        new(start.Value, end.Value, label, JamsDocument.Sure(confidence));

    private static IEnumerable<JamsSpan> Spans(IEnumerable<AnnotatedSpan> spans, Func<string, string?> label) =>
        from span in spans let value = label(span.Label) where value is not null select new JamsSpan(span.Start, span.End, value);
}
