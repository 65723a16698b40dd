using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Listening.Evaluation;

/// <summary>One measure's value, and how much it weighs when recordings are averaged (seconds judged for chords, else 1).</summary>
public sealed record Measured(string Measure, double Value, double Weight = 1);

/// <summary>Scores a Hearing against a reference annotation by the published measures. What the reference doesn't tell isn't scored.</summary>
public static class Evaluator
{
    private static readonly (string Kind, double Level)[] LevelErrors =
        [("twice the level", 2), ("half the level", 0.5), ("three times", 3), ("a third", 1 / 3.0), ("three halves", 1.5), ("two thirds", 2 / 3.0)];

    public static ImmutableArray<Measured> Score(Hearing hearing, Annotation truth) =>
    [
        .. Beats(hearing, truth),
        .. Tempo(hearing, truth),
        .. Keys(hearing, truth),
        .. Chords(hearing, truth),
        .. Notes(hearing, truth),
        .. Sections(hearing, truth),
        .. PitchAndTuning(hearing, truth),
        .. Strings(hearing, truth),
        .. LineScores.Of(hearing.Lines, hearing.ReferencePitch.Best, truth),
    ];

    /// <summary>The weighted mean of each measure over several recordings, in the order first seen.</summary>
    public static ImmutableArray<Measured> Mean(IEnumerable<ImmutableArray<Measured>> sheets) =>
    [
        .. sheets.SelectMany(s => s).GroupBy(m => m.Measure)
            .Select(g => new Measured(g.Key, g.Sum(m => m.Value * m.Weight) / Math.Max(1e-12, g.Sum(m => m.Weight)), g.Count())),
    ];

    private static IEnumerable<Measured> Beats(Hearing hearing, Annotation truth)
    {
        var reference = BeatScores.Trimmed(truth.Beats.Select(b => b.Time));
        if (reference.Length < 2)
            yield break;
        var estimated = BeatScores.Trimmed(hearing.Beats.Select(b => b.Time.Value));
        var continuity = BeatScores.Continuity(reference, estimated);
        yield return new("beat F", BeatScores.FMeasure(reference, estimated).F);
        yield return new("beat continuity, right level", continuity.CorrectLevelTotal);
        yield return new("beat continuity, any level", continuity.AnyLevelTotal);
        var downbeats = BeatScores.Trimmed(truth.Downbeats);
        if (downbeats.Length > 1)
            yield return new("downbeat F",
                BeatScores.FMeasure(downbeats, BeatScores.Trimmed(hearing.Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time.Value))).F);
    }

    private static IEnumerable<Measured> Tempo(Hearing hearing, Annotation truth)
    {
        if (truth.Tempo is not { } tempo)
            yield break;
        yield return new("tempo within 4%", TempoScore.Within(tempo, hearing.Tempo.Best, 0.04) ? 1 : 0);
        yield return new("tempo within 4% or an octave", TempoScore.WithinAnOctave(tempo, hearing.Tempo.Best) ? 1 : 0);
        foreach (var (kind, level) in LevelErrors)
            yield return new($"tempo at {kind}", TempoScore.Within(tempo * level, hearing.Tempo.Best, 0.04) ? 1 : 0);
        yield return new("tempo right, beats halfway off", TempoScore.Within(tempo, hearing.Tempo.Best, 0.04) && IsOffBeat(hearing, truth) ? 1 : 0);
    }

    /// <summary>Whether most true beats lie nearer to the middle between two heard ones than to either.</summary>
    private static bool IsOffBeat(Hearing hearing, Annotation truth)
    {
        double[] heard = [.. hearing.Beats.Select(b => b.Time.Value)];
        var inside = truth.Beats.Where(b => heard.Length > 1 && b.Time > heard[0] && b.Time < heard[^1]).ToArray();
        return 2 * inside.Count(b =>
        {
            var next = Array.FindIndex(heard, t => t > b.Time);
            return Math.Abs((b.Time - heard[next - 1]) / (heard[next] - heard[next - 1]) - 0.5) < 0.25;
        }) > inside.Length;
    }

    private static IEnumerable<Measured> Keys(Hearing hearing, Annotation truth)
    {
        var keys = truth.Keys.Select(k => (Span: k, Key: Key.TryParse(k.Label, out var key) ? key : null)).Where(k => k.Key is not null).ToArray();
        if (keys.Length == 0)
            yield break;
        var (score, time) = (0.0, 0.0);
        foreach (var heard in hearing.Keys)
        {
            foreach (var (span, key) in keys)
            {
                var overlap = Math.Min(span.End, heard.End.Value) - Math.Max(span.Start, heard.Start.Value);
                if (overlap <= 0)
                    continue;
                score += overlap * KeyScore.Weighted(key!, heard.Key.Best);
                time += overlap;
            }
        }
        yield return new("key, weighted", time > 0 ? score / time : 0);
    }

    private static IEnumerable<Measured> Chords(Hearing hearing, Annotation truth)
    {
        if (truth.Chords.IsEmpty)
            return [];
        AnnotatedSpan[] heard = [.. hearing.Chords.Select(c => new AnnotatedSpan(c.Start.Value, c.End.Value, HarteLabel.Write(c.Chord.Best)))];
        (string, Func<string, string, bool?>)[] comparisons =
        [
            ("chord root", ChordComparison.Root),
            ("chord majmin", ChordComparison.MajorMinor),
            ("chord majmin with bass", ChordComparison.MajorMinorWithBass),
            ("chord sevenths", ChordComparison.Sevenths),
        ];
        return comparisons.Select(c =>
        {
            var (right, judged) = ChordScores.RecallParts(truth.Chords, heard, c.Item2);
            return new Measured(c.Item1, judged > 0 ? right / judged : 0, judged);
        }).Where(m => m.Weight > 0);
    }

    private static IEnumerable<Measured> Notes(Hearing hearing, Annotation truth)
    {
        if (truth.Notes.IsEmpty)
            yield break;
        var heard = Scored(hearing);
        yield return new("note onset F", NoteScores.OnsetAndPitch(truth.Notes, heard).F);
        yield return new("note with offset F", NoteScores.OnsetPitchAndOffset(truth.Notes, heard).F);
        yield return new("frame F", NoteScores.Frames(truth.Notes, heard).F);
    }

    internal static ScoredNote[] Scored(Hearing hearing)
    {
        var offset = Cents.Between(Hertz.A440, hearing.ReferencePitch.Best).Value / 100;
        return [.. hearing.Notes.Select(n => new ScoredNote(n.Onset.Value, n.End.Value, n.Midi + offset, n.Place?.StringIndex))];
    }

    private static IEnumerable<Measured> Sections(Hearing hearing, Annotation truth)
    {
        if (truth.Sections.IsEmpty)
            yield break;
        yield return new("boundary F, 0.5 s", BoundaryScores.FMeasure(
            truth.Sections.SelectMany(s => new[] { s.Start, s.End }),
            hearing.Sections.SelectMany(s => new[] { s.Start.Value, s.End.Value }), 0.5).F);
    }

    private static IEnumerable<Measured> PitchAndTuning(Hearing hearing, Annotation truth)
    {
        if (truth.ReferenceHertz is { } a4)
        {
            var error = Math.Abs(Cents.Between(Hertz.FromHertz(a4), hearing.ReferencePitch.Best).Value);
            yield return new("reference pitch error, cents", error);
            yield return new("reference pitch within 3 cents", error <= 3 ? 1 : 0);
        }
        if (truth.Tuning is { } tuning)
            yield return new("tuning and capo, first choice", SameGuitar(hearing.Tuning.Best, tuning, truth.Capo ?? 0) ? 1 : 0);
    }

    /// <summary>
    /// Of the notes found (as <see cref="NoteScores.OnsetAndPitch"/> matches them), the share on their true string and fret: with the heard tuning,
    /// and with the true one. Where the reference names no tuning, its strings are taken to be standard's, as GuitarSet's are.
    /// </summary>
    private static IEnumerable<Measured> Strings(Hearing hearing, Annotation truth)
    {
        if (!truth.Notes.Any(n => n.StringIndex is not null))
            yield break;
        var told = Reader.Again(hearing, hearing.Claims with { Tuning = truth.Tuning ?? Tuning.Standard, Capo = Capo.At(truth.Capo ?? 0) });
        foreach (var (measure, heard) in new[] { ("string and fret", hearing), ("string and fret, tuning given", told) })
        {
            var (right, found) = StringScores.Count(truth.Notes, told.Tuning.Best, Scored(heard), heard.Tuning.Best);
            if (found > 0)
                yield return new(measure, (double)right / found, found);
        }
    }

    /// <summary>Strings that sound the same, however they are spelled, and the same capo.</summary>
    internal static bool SameGuitar(HeardTuning heard, Tuning tuning, int capo) =>
        heard.Tuning.Strings.Select(p => p.Midi).SequenceEqual(tuning.Strings.Select(p => p.Midi)) && heard.Capo.Fret == capo;
}
