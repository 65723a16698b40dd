using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Evaluation;
using Harkbook.Listening.Interchange;
using Harkbook.Listening.Reading;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Training.Harmony;

/// <summary>A piece whose spans are weighed, to be read again and again.</summary>
internal sealed record WeighedPiece(HeardPiece Heard, WeighedChords Weighed)
{
    public static WeighedPiece Of(HeardPiece piece) => new(piece, HarmonyReader.Trained().Weigh(piece.Notes, piece.Beats));

    public Scores Read(HarmonyWeights weights, Claims? claims = null)
    {
        var read = new HarmonyReader(null!, weights).Read(Weighed, Heard.Length, claims ?? Claims.None);
        return Score(read.Keys, read.Chords);
    }

    /// <summary>Pieces one after the other, as one recording that changes key where they meet.</summary>
    public static WeighedPiece Join(IReadOnlyList<WeighedPiece> pieces)
    {
        var (spans, keys, chords, at) = (new List<ChordSpan>(), new List<AnnotatedSpan>(), new List<AnnotatedSpan>(), 0.0);
        foreach (var piece in pieces)
        {
            var shift = Seconds.FromSeconds(at);
            spans.AddRange(piece.Weighed.Spans.Select(s => s with { Start = s.Start + shift, End = s.End + shift }));
            keys.AddRange(piece.Heard.Truth.Keys.Select(k => k with { Start = k.Start + at, End = k.End + at }));
            chords.AddRange(piece.Heard.Truth.Chords.Select(k => k with { Start = k.Start + at, End = k.End + at }));
            at = spans[^1].End.Value;
        }
        return new(pieces[0].Heard with { Length = Seconds.FromSeconds(at), Truth = new() { Keys = [.. keys], Chords = [.. chords] } },
            new(spans, [.. pieces.SelectMany(p => p.Weighed.Fits)], [.. pieces.SelectMany(p => p.Weighed.Change)], [.. pieces.SelectMany(p => p.Weighed.Contents)],
                [.. pieces.SelectMany(p => p.Weighed.Keys!)]));
    }

    private Scores Score(ImmutableArray<HeardKey> keys, ImmutableArray<HeardChord> chords)
    {
        AnnotatedSpan[] heard = [.. chords.Select(c => new AnnotatedSpan(c.Start.Value, c.End.Value, HarteLabel.Write(c.Chord.Best)))];
        (double, double) Of(Func<string, string, bool?> comparison) => ChordScores.RecallParts(Heard.Truth.Chords, heard, comparison);
        var (right, time) = (0.0, 0.0);
        foreach (var k in keys)
        {
            foreach (var span in Heard.Truth.Keys)
            {
                var overlap = Math.Min(span.End, k.End.Value) - Math.Max(span.Start, k.Start.Value);
                if (overlap <= 0 || !Key.TryParse(span.Label, out var key))
                    continue;
                time += overlap;
                right += overlap * KeyScore.Weighted(key!, k.Key.Best);
            }
        }
        return new(time > 0 ? right / time : null,
            [Of(ChordComparison.Root), Of(ChordComparison.MajorMinor), Of(ChordComparison.Sevenths), Of(ChordComparison.MajorMinorWithBass)],
            [.. JudgedChords(chords)], [.. JudgedKeys(keys)]);
    }

    private IEnumerable<Judged> JudgedChords(ImmutableArray<HeardChord> chords)
    {
        foreach (var chord in Heard.Truth.Chords.IsEmpty ? [] : chords)
        {
            AnnotatedSpan[] heard = [new(chord.Start.Value, chord.End.Value, HarteLabel.Write(chord.Chord.Best))];
            var within = Heard.Truth.Chords.Where(t => t.End > heard[0].Start && t.Start < heard[0].End)
                .Select(t => t with { Start = Math.Max(t.Start, heard[0].Start), End = Math.Min(t.End, heard[0].End) }).ToArray();
            var (right, judged) = ChordScores.RecallParts(within, heard, (t, e) => ChordComparison.Sevenths(t, e) ?? ChordComparison.MajorMinor(t, e));
            if (judged > 0)
                yield return new(chord.Chord.Confidence, right / judged >= 0.5, judged);
        }
    }

    private IEnumerable<Judged> JudgedKeys(ImmutableArray<HeardKey> keys)
    {
        foreach (var heard in keys)
        {
            var (right, judged) = (0.0, 0.0);
            foreach (var span in Heard.Truth.Keys)
            {
                var overlap = Math.Min(span.End, heard.End.Value) - Math.Max(span.Start, heard.Start.Value);
                if (overlap <= 0 || !Key.TryParse(span.Label, out var key))
                    continue;
                judged += overlap;
                right += KeyScore.Weighted(key!, heard.Key.Best) == 1 ? overlap : 0;
            }
            if (judged > 0)
                yield return new(heard.Key.Confidence, right / judged >= 0.5, judged);
        }
    }
}

internal sealed record Judged(double Confidence, bool Right, double Seconds);

/// <param name="Chords">Seconds right and judged: root, majmin, sevenths, majmin with bass.</param>
internal sealed record Scores(double? Key, (double Right, double Judged)[] Chords, Judged[] JudgedChords, Judged[] JudgedKeys)
{
    public static double[] Mean(IReadOnlyCollection<Scores> all) =>
    [
        all.Where(s => s.Key is not null).Select(s => s.Key!.Value).DefaultIfEmpty().Average(),
        .. Enumerable.Range(0, 4).Select(i => all.Sum(s => s.Chords[i].Right) / Math.Max(1e-9, all.Sum(s => s.Chords[i].Judged))),
    ];
}
