using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// Scores a drafted song against the true one: what the hands do, and the form. Things match one to one within 70 ms, the window of beats (MIREX),
/// and a place is right where it is the same fraction of the same beat of its bar. What the true song doesn't have isn't scored.
/// </summary>
public static class DraftScores
{
    private const double Window = 0.07;

    /// <summary>Something that a song says of the guitar.</summary>
    private readonly record struct Said(double Time, Beats Place, string What, string How);

    public static ImmutableArray<Measured> Score(Song draft, Song truth) =>
    [
        .. Picked(draft, truth), .. Strokes(draft, truth), .. Chords(draft, truth), .. FormScores.Of(SpansOf(draft), SpansOf(truth)),
        .. TuneScores.Score(draft, truth),
    ];

    /// <summary>Against an annotation: strings and frets where it has notes on strings, and the tune where it has one.</summary>
    public static ImmutableArray<Measured> Score(Song draft, Annotation truth) => [.. Strings(draft, truth), .. TuneScores.Score(draft, truth)];

    /// <summary>
    /// Against an annotation that names strings (standard's, where it names no tuning): the share of its notes that are written on their string and
    /// fret, picked or by a stroke over a shape, within 70 ms, and of the written notes that are so. Its grid isn't known.
    /// </summary>
    private static IEnumerable<Measured> Strings(Song draft, Annotation truth)
    {
        var (tuning, capo) = (truth.Tuning ?? Tuning.Standard, Capo.At(truth.Capo ?? 0));
        var offset = 12 * Math.Log2(draft.ReferencePitch.Value.Value / 440);
        List<Said> played =
        [
            .. from note in truth.Notes
               let s = note.StringIndex ?? tuning.Count
               where s < tuning.Count
               let open = tuning.Strings[s].Midi + capo.Raises(s)
               select new Said(note.Onset, Beats.Zero, $"{Open(tuning, capo, s)} {(int)Math.Round(note.Midi - offset) - open}", ""),
        ];
        List<Said> written = [.. NotesOf(draft), .. StrummedOf(draft)];
        if (played.Count == 0 || written.Count == 0)
            return [];
        var right = Matches(played, written, (a, b) => a.What == b.What).Count(m => m >= 0);
        return
        [
            new("guitar's notes, string and fret", (double)right / played.Count, played.Count),
            new("guitar's notes written that are right", (double)right / written.Count, written.Count),
        ];
    }

    /// <summary>
    /// The share of the true notes whose string, fret and place are written, and of the written notes that are so; the first again without the place.
    /// Techniques are scored by F, each kind on its own string and fret.
    /// </summary>
    private static IEnumerable<Measured> Picked(Song draft, Song truth)
    {
        var (written, played) = (NotesOf(draft), NotesOf(truth));
        if (played.Count > 0)
        {
            var right = Matches(played, written, (a, b) => a.What == b.What && a.Place == b.Place).Count(m => m >= 0);
            yield return new("picked notes, string, fret and place", (double)right / played.Count, played.Count);
            yield return new("picked notes, string and fret", (double)Matches(played, written, (a, b) => a.What == b.What).Count(m => m >= 0) / played.Count,
                played.Count);
            if (written.Count > 0)
                yield return new("picked notes written that are right", (double)right / written.Count, written.Count);
        }
        var (real, told) = (played.Where(n => n.How.Length > 0).ToList(), written.Where(n => n.How.Length > 0).ToList());
        if (real.Count > 0)
            yield return new("techniques F", F(real, told, (a, b) => a.What == b.What && a.How == b.How), real.Count);
    }

    private static IEnumerable<Measured> Strokes(Song draft, Song truth)
    {
        var (written, played) = (StrokesOf(draft), StrokesOf(truth));
        if (played.Count == 0)
            yield break;
        var match = Matches(played, written, (a, b) => a.Place == b.Place);
        var found = Enumerable.Range(0, played.Count).Where(i => match[i] >= 0).ToList();
        yield return new("strokes at their place", (double)found.Count / played.Count, played.Count);
        if (written.Count > 0)
            yield return new("strokes written that are there", (double)found.Count / written.Count, written.Count);
        if (found.Count > 0)
            yield return new("directions of found strokes", (double)found.Count(i => played[i].How == written[match[i]].How) / found.Count, found.Count);
    }

    /// <summary>The share of the true song's chord time that the draft's chords name, by root and third, and by all their notes.</summary>
    private static IEnumerable<Measured> Chords(Song draft, Song truth)
    {
        var (written, played) = (ChordsOf(draft), ChordsOf(truth));
        (string, Func<string, string, bool?>)[] comparisons = [("majmin", ChordComparison.MajorMinor), ("sevenths", ChordComparison.Sevenths)];
        foreach (var (name, comparison) in comparisons)
        {
            var (right, judged) = ChordScores.RecallParts(played, written, comparison);
            if (judged > 0)
                yield return new($"written chords, {name}", right / judged, judged);
        }
    }

    private static ImmutableArray<AnnotatedSpan> ChordsOf(Song song)
    {
        var clock = new SongClock(song);
        return [.. song.Bars.SelectMany(b => b.Chords.Select(c => new AnnotatedSpan(clock.TimeOf(b.Number, c.Start).Value,
            clock.TimeOf(b.Number, c.Start + c.Length).Value, HarteLabel.Write(c.Value.Chord))))];
    }

    private static double F(List<Said> truth, List<Said> draft, Func<Said, Said, bool> same) =>
        FScore.FromCounts(Matches(truth, draft, same).Count(m => m >= 0), truth.Count, draft.Count).F;

    private static int[] Matches(List<Said> truth, List<Said> draft, Func<Said, Said, bool> same) =>
        Matching.Largest([.. truth.Select(t => (IReadOnlyList<int>)[.. Enumerable.Range(0, draft.Count)
            .Where(i => Math.Abs(draft[i].Time - t.Time) <= Window && same(t, draft[i]))])], draft.Count);

    private static List<Said> NotesOf(Song song)
    {
        var clock = new SongClock(song);
        string Open(int s) => DraftScores.Open(song.Tuning.Value, song.Capo.Value, s);
        return [.. song.Bars.SelectMany(b => b.Picked.Select(p => new Said(clock.TimeOf(b.Number, p.Start).Value, p.Start,
            p.Value.IsMuted ? $"{Open(p.Value.StringIndex)} x" : $"{Open(p.Value.StringIndex)} {p.Value.Fret}", Technique(p.Value))))];
    }

    /// <summary>The strings that strokes sound; one up is taken to reach the upper four.</summary>
    private static IEnumerable<Said> StrummedOf(Song song)
    {
        var clock = new SongClock(song);
        return from bar in song.Bars
               from stroke in bar.Strums
               let shape = bar.Chords.LastOrDefault(c => c.Start <= stroke.Start)?.Value.Shape
               where shape is not null && stroke.Value != Stroke.Muted
               let strings = Enumerable.Range(0, shape.Frets.Length).Where(s => shape.Frets[s] is not null)
               from s in stroke.Value == Stroke.Up ? strings.TakeLast(4) : strings
               select new Said(clock.TimeOf(bar.Number, stroke.Start).Value, stroke.Start,
                   $"{Open(song.Tuning.Value, song.Capo.Value, s)} {shape.Frets[s]}", "");
    }

    private static string Open(Tuning tuning, Capo capo, int s) => $"{s}:{tuning.Strings[s].Midi}+{capo.Raises(s)}";

    private static List<Said> StrokesOf(Song song)
    {
        var clock = new SongClock(song);
        return [.. song.Bars.SelectMany(b => b.Strums.Select(s => new Said(clock.TimeOf(b.Number, s.Start).Value, s.Start, "", s.Value.ToString())))];
    }

    /// <summary>Empty for a note that is just picked.</summary>
    private static string Technique(PickedNote note) =>
        note.IsMuted ? "muted"
        : note.TouchedAt is not null ? "harmonic"
        : !note.Bend.IsNone ? "bent"
        : note.Attack == Attack.Picked ? "" : note.Attack.ToString();

    private static ImmutableArray<FormSpan> SpansOf(Song song)
    {
        var (clock, bar) = (new SongClock(song), 1);
        var spans = ImmutableArray.CreateBuilder<FormSpan>();
        foreach (var section in song.Sections.Where(s => s.Bars.Length > 0))
        {
            spans.Add(new(clock.TimeOf(bar).Value, clock.TimeOf(bar + section.Bars.Length).Value, FormScores.LabelOf(section.Name)));
            bar += section.Bars.Length;
        }
        return spans.ToImmutable();
    }
}
