using System.Collections.Immutable;
using Harkbook.Music.Theory;
using NAudio.Midi;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// Reads a Standard MIDI File as an annotation: notes (percussion left out), beats and bars from its tempo map and
/// time signatures, keys from its key signatures.
/// </summary>
public static class MidiReader
{
    private const int PercussionChannel = 10;

    public static Annotation Read(string path)
    {
        MidiFile file;
        try
        {
            file = new MidiFile(path, strictChecking: false);
        }
        catch (Exception e) when (e is FormatException or EndOfStreamException or ArgumentException or IndexOutOfRangeException or OverflowException)
        {
            throw new AnnotationException($"{path}: not a Standard MIDI File that can be read ({e.Message.TrimEnd('.')}). Export it again as MIDI type 0 or 1.",
                e);
        }
        var events = file.Events.SelectMany(track => track).OrderBy(e => e.AbsoluteTime).ToImmutableArray();
        var clock = new MidiClock(file.DeltaTicksPerQuarterNote, events);
        var notes = Notes(events, clock);
        var end = notes.Length == 0 ? 0 : notes.Max(n => n.End);
        return new Annotation
        {
            Duration = end,
            Notes = notes,
            Beats = clock.Beats(events, end),
            Keys = Keys(events, clock, end),
            Tempo = clock.MainTempo(events, end),
        };
    }

    private static ImmutableArray<ScoredNote> Notes(ImmutableArray<MidiEvent> events, MidiClock clock) =>
    [
        .. events.OfType<NoteOnEvent>()
            .Where(n => n.Velocity > 0 && n.Channel != PercussionChannel && n.OffEvent is not null)
            .Select(n => new ScoredNote(clock.SecondsAt(n.AbsoluteTime), clock.SecondsAt(n.OffEvent!.AbsoluteTime), n.NoteNumber))
            .OrderBy(n => n.Onset).ThenBy(n => n.Midi),
    ];

    private static ImmutableArray<AnnotatedSpan> Keys(ImmutableArray<MidiEvent> events, MidiClock clock, double end)
    {
        var changes = events.OfType<KeySignatureEvent>().DistinctBy(k => k.AbsoluteTime).ToArray();
        return
        [
            .. changes.Select((k, i) => new AnnotatedSpan(
                clock.SecondsAt(k.AbsoluteTime),
                i + 1 < changes.Length ? clock.SecondsAt(changes[i + 1].AbsoluteTime) : end,
                KeyOf((sbyte)k.SharpsFlats, k.MajorMinor == 1).ToString())),
        ];
    }

    private static Key KeyOf(int signature, bool minor) =>
        minor ? new(PitchName.FromFifths(signature + 3), Mode.Minor) : new(PitchName.FromFifths(signature), Mode.Major);
}
