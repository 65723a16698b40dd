using System.Collections.Immutable;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;

namespace Harkbook.Listening.Evaluation;

/// <summary>One estimate: of what kind, how sure it was said to be (0–1), whether it was right, how much it weighs (seconds for chords and keys).</summary>
public sealed record JudgedEstimate(string Kind, double Confidence, bool Right, double Weight);

/// <summary>How often estimates of one kind whose confidence lies between two bounds were right; the reliability of Murphy and Winkler (1977).</summary>
/// <param name="Share">The share right, by weight.</param>
/// <param name="Count">How many estimates that rests on.</param>
public sealed record Reliability(string Kind, double From, double To, double Share, int Count);

/// <summary>Whether estimates are as sure as they should be: what was said to be 90% sure should be right nine times of ten.</summary>
public static class Sureness
{
    private const double BeatReach = 0.07;

    /// <summary>The bounds between which estimates are gathered.</summary>
    public static ImmutableArray<double> Bounds { get; } = [0, 0.3, 0.5, 0.7, 0.9, 1];

    /// <summary>Every estimate of a Hearing that the reference can judge.</summary>
    public static IEnumerable<JudgedEstimate> Judge(Hearing hearing, Annotation truth) =>
        [.. Beats(hearing, truth), .. Chords(hearing, truth), .. Keys(hearing, truth), .. Notes(hearing, truth), .. Whole(hearing, truth)];

    /// <summary>For each kind, in the order first seen, each pair of bounds that holds an estimate.</summary>
    public static ImmutableArray<Reliability> Gather(IEnumerable<JudgedEstimate> estimates) =>
    [
        .. estimates.GroupBy(e => e.Kind).SelectMany(kind => Bounds.Zip(Bounds.Skip(1), (from, to) => (from, to))
            .Select(b => (b.from, b.to, In: kind.Where(e => e.Confidence >= b.from && (e.Confidence < b.to || b.to == 1)).ToList()))
            .Where(b => b.In.Count > 0)
            .Select(b => new Reliability(kind.Key, b.from, b.to,
                b.In.Sum(e => e.Right ? e.Weight : 0) / Math.Max(1e-12, b.In.Sum(e => e.Weight)), b.In.Count))),
    ];

    /// <summary>A beat is right within 70 ms of a true one; those before the first true beat and after the last aren't judged.</summary>
    private static IEnumerable<JudgedEstimate> Beats(Hearing hearing, Annotation truth)
    {
        if (truth.Beats.IsEmpty)
            return [];
        double[] times = [.. truth.Beats.Select(b => b.Time)];
        return hearing.Beats.Where(b => b.Time.Value >= times[0] - BeatReach && b.Time.Value <= times[^1] + BeatReach)
            .Select(b => new JudgedEstimate("beat", b.Confidence, times.Any(t => Math.Abs(t - b.Time.Value) <= BeatReach), 1));
    }

    /// <summary>A chord is right where its sevenths agree, or where only triads can be judged its triad.</summary>
    private static IEnumerable<JudgedEstimate> Chords(Hearing hearing, Annotation truth)
    {
        foreach (var chord in truth.Chords.IsEmpty ? [] : hearing.Chords)
        {
            AnnotatedSpan[] heard = [new(chord.Start.Value, chord.End.Value, HarteLabel.Write(chord.Chord.Best))];
            var within = truth.Chords.Where(t => t.End > heard[0].Start && t.Start < heard[0].End)
                .Select(t => t with { Start = Math.Max(t.Start, heard[0].Start), End = Math.Min(t.End, heard[0].End) }).ToArray();
            var (right, judged) = ChordScores.RecallParts(within, heard, (t, e) => ChordComparison.Sevenths(t, e) ?? ChordComparison.MajorMinor(t, e));
            if (judged > 0)
                yield return new("chord", chord.Chord.Confidence, right / judged >= 0.5, judged);
        }
    }

    /// <summary>A key is right where tonic and third agree over most of its time.</summary>
    private static IEnumerable<JudgedEstimate> Keys(Hearing hearing, Annotation truth)
    {
        foreach (var heard in hearing.Keys)
        {
            var (right, judged) = (0.0, 0.0);
            foreach (var span in truth.Keys)
            {
                var overlap = Math.Min(span.End, heard.End.Value) - Math.Max(span.Start, heard.Start.Value);
                if (overlap <= 0 || !Key.TryParse(span.Label, out var key))
                    continue;
                judged += overlap;
                right += KeyScore.Weighted(key, heard.Key.Best) == 1 ? overlap : 0;
            }
            if (judged > 0)
                yield return new("key", heard.Key.Confidence, right / judged >= 0.5, judged);
        }
    }

    private static IEnumerable<JudgedEstimate> Notes(Hearing hearing, Annotation truth)
    {
        if (truth.Notes.IsEmpty)
            return [];
        var heard = Evaluator.Scored(hearing);
        var found = NoteScores.Match(truth.Notes, heard).Where(m => m >= 0).ToHashSet();
        return hearing.Notes.Select((n, i) => new JudgedEstimate("note", n.Confidence, found.Contains(i), 1));
    }

    private static IEnumerable<JudgedEstimate> Whole(Hearing hearing, Annotation truth)
    {
        if (truth.Tempo is { } tempo)
            yield return new("tempo", hearing.Tempo.Confidence, TempoScore.Within(tempo, hearing.Tempo.Best, 0.04), 1);
        if (truth.Beats.Select(b => b.PositionInBar).Max() is { } perBar)
            yield return new("meter", hearing.Meter.Confidence, hearing.Meter.Best.BeatsPerBar == perBar, 1);
        if (truth.Tuning is { } tuning)
            yield return new("tuning and capo", hearing.Tuning.Confidence, Evaluator.SameGuitar(hearing.Tuning.Best, tuning, truth.Capo ?? 0), 1);
    }
}
