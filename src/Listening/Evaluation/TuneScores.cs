using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// Scores the notes of a drafted tune, at the times at which the draft's bars and anchors put them, as transcriptions of melodies are scored: onset
/// within 50 ms, pitch within a quarter tone (Bay, Ehmann and Downie, ISMIR 2009, as mir_eval does). A harmonica's notes are no tune's.
/// </summary>
public static class TuneScores
{
    /// <summary>Nothing where the true song has no tune.</summary>
    public static ImmutableArray<Measured> Score(Song draft, Song truth) => Score(draft, Notes(truth));

    /// <summary>Nothing where the annotation tells no notes of a voice, whistle or fiddle.</summary>
    public static ImmutableArray<Measured> Score(Song draft, Annotation truth) =>
        Score(draft, [.. (truth.Lines ?? []).Where(l => l.Kind != LineKind.Harmonica && l.HarpKey is null).SelectMany(l => l.Notes).Select(n => n.Note)]);

    private static ImmutableArray<Measured> Score(Song draft, IReadOnlyList<ScoredNote> truth)
    {
        if (truth.Count == 0)
            return [];
        var written = Notes(draft);
        var right = NoteScores.OnsetAndPitch(truth, written);
        var measured = ImmutableArray.Create(new Measured("tune note onset F", right.F, truth.Count));
        return written.Count == 0 ? measured : measured.Add(new("tune notes written that are right", right.Precision, written.Count));
    }

    /// <summary>About A440. A bend counts from where it starts.</summary>
    private static List<ScoredNote> Notes(Song song)
    {
        var (clock, offset) = (new SongClock(song), 12 * Math.Log2(song.ReferencePitch.Value.Value / 440));
        return [.. song.Bars.SelectMany(b => b.Tune.Select(n => new ScoredNote(clock.TimeOf(b.Number, n.Start).Value,
            clock.TimeOf(b.Number, n.Start + n.Length).Value, n.Value.Pitch.Midi + offset)))];
    }
}
