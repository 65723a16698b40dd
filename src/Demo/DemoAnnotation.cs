using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;

namespace Harkbook.Demo;

/// <summary>The truth about a made-up recording as an annotation that hearing is scored against.</summary>
public static class DemoAnnotation
{
    public static Annotation Of(DemoTake take)
    {
        var (truth, length) = (take.Truth, take.Sound.Duration.Value);
        return new()
        {
            Duration = length,
            Beats = [.. truth.Beats.Select(b => new AnnotatedBeat(b.Time.Value, b.PositionInBar))],
            Chords = [.. truth.Chords.Select(c => new AnnotatedSpan(c.Start.Value, c.End.Value, c.Label))],
            Keys = [new(0, length, truth.Key.ToString())],
            Notes = [.. truth.Notes.Select(n => Scored(truth, n))],
            Sections = [.. truth.Sections.Select(s => new AnnotatedSpan(s.Start.Value, s.End.Value, s.Name))],
            Tempo = MedianTempo(truth),
            ReferenceHertz = truth.ReferencePitch.Value,
            Tuning = truth.Tuning,
            Capo = truth.Capo.Fret,
            Lines = [.. Line(truth, LineKind.Voice, DemoPart.Voice, null), .. Line(truth, LineKind.Harmonica, DemoPart.Harp, truth.HarpKey)],
        };
    }

    private static ImmutableArray<AnnotatedLine> Line(DemoTruth truth, LineKind kind, DemoPart part, PitchName? harpKey)
    {
        var notes = truth.Notes.Where(n => n.Part == part).Select(n => new AnnotatedLineNote(Scored(truth, n), n.Hole)).ToImmutableArray();
        return notes.IsEmpty ? [] : [new(kind, [], notes, harpKey)];
    }

    private static ScoredNote Scored(DemoTruth truth, TrueNote note) =>
        new(note.Onset.Value, note.End.Value, note.Midi + 12 * Math.Log2(truth.ReferencePitch.Value / 440), note.StringIndex);

    private static double MedianTempo(DemoTruth truth)
    {
        var lengths = truth.Beats.Zip(truth.Beats.Skip(1), (a, b) => (b.Time - a.Time).Value).Order().ToArray();
        return 60 / lengths[lengths.Length / 2];
    }
}
