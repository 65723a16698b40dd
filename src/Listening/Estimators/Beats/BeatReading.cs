using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Reads beats, bars, tempo and meter from evidence: the row of beats × intervals × places in the bar of the largest score, given what a person
/// claims. What doesn't hang on claims is worked out once and kept for the next reading.
/// </summary>
internal sealed class BeatReading
{
    private const float Marked = 0.1f;

    private readonly PulseSound heard;
    private readonly ImmutableArray<HeardNote> notes;
    private readonly BeatModel model;
    private readonly double[] onsets;
    private readonly SoundingSpan? span;
    private readonly Lazy<LevelFeatures> features;
    private ScoredRows? kept;

    /// <param name="notes">Any order; none where they aren't known.</param>
    /// <param name="model">The shipped one where it isn't told.</param>
    public BeatReading(PulseSound heard, ImmutableArray<HeardNote> notes, BeatModel? model = null, CancellationToken cancellation = default)
    {
        (this.heard, this.notes, this.model) = (heard, notes, model ?? BeatModel.Shipped);
        var flux = FluxPulse.Of(heard.Bands, cancellation);
        onsets = flux.Onsets();
        features = new(() => new(heard, notes));
        span = heard.Span is { } s ? s with { Last = Math.Min(s.Last, flux.LastOnset()) } : null;
    }

    /// <summary>Curves alone, with nothing known of the sound itself; from the first frame where the network hears a beat to the last.</summary>
    public BeatReading(PulseEvidence curves, ImmutableArray<HeardNote>? notes = null)
    {
        var (first, last) = (Array.FindIndex(curves.Beat, b => b > Marked), Array.FindLastIndex(curves.Beat, b => b > Marked));
        var span = new SoundingSpan(Math.Max(0, first - 2), Math.Min(curves.Frames - 1, last + 2));
        (heard, this.notes, model) = (new(curves, KeptBands.None, span), notes ?? [], BeatModel.Shipped);
        onsets = [.. curves.Beat.Select(b => (double)(4 * b))];
        features = new(() => new(heard, this.notes));
        this.span = span;
    }

    public BeatEstimate Read(Claims claims, BeatOptions options, CancellationToken cancellation)
    {
        if (span is null)
            return BeatAnswers.Nothing("no sound was heard");
        var rows = Rows(claims, options, cancellation);
        return rows.Sum(r => r.Beats.Length) < 2 ? BeatAnswers.Nothing("no beat was felt") : BeatAnswers.Of(rows, heard, notes, claims, model);
    }

    /// <summary>The levels about a known tempo of the whole recording, where it is all in one stretch.</summary>
    public List<LevelRow> Levels(double tempo, CancellationToken cancellation) => span is not { } whole ? []
        : HeardLevel.About(tempo, Scored(whole.Pieces().First(), new(Claims.None, new()), cancellation), features.Value, model, cancellation);

    /// <summary>The best row of each stretch of at most ten minutes.</summary>
    public List<BeatRow> Rows(Claims claims, BeatOptions options, CancellationToken cancellation)
    {
        var rows = new List<BeatRow>();
        if (span is not { } whole)
            return rows;
        foreach (var piece in whole.Pieces())
        {
            var row = Read(piece, new(claims, options), isWhole: piece == whole, cancellation);
            // A beat on the border may be found on both of its sides.
            if (rows is [.., { Beats: [.., var before] }])
                row = row.From(before.Frame + before.Interval / 2);
            rows.Add(row);
        }
        return rows;
    }

    private BeatRow Read(SoundingSpan piece, RowClaims claims, bool isWhole, CancellationToken cancellation)
    {
        var scored = isWhole && kept is { } before && claims.Fits(before.Rows) ? before : Score(piece, claims, cancellation);
        if (isWhole)
            kept = scored;
        if (scored.Level is not { } level || (level.Range is { } range && !claims.Allow(range)))
            return claims.Read(scored, model, null, cancellation);
        var row = claims.Read(scored, model, level.Range, cancellation);
        return claims.AreNone ? row with { Tempi = level.Tempi } : row;
    }

    private ScoredRows Score(SoundingSpan piece, RowClaims claims, CancellationToken cancellation)
    {
        var rows = Scored(piece, claims, cancellation);
        return heard.Bands.Frames == 0 || notes.IsEmpty
            ? rows
            : rows with { Level = HeardLevel.Of(rows, features.Value, model, LevelModel.Shipped, cancellation) };
    }

    private ScoredRows Scored(SoundingSpan piece, RowClaims claims, CancellationToken cancellation)
    {
        var moments = BeatMoments.Of(heard.Curves.Beat, onsets, piece, claims.Frames(piece));
        var graph = new RowGraph(moments, claims.Shortest, claims.Longest);
        var evidence = RowEvidence.Of(heard.Curves, heard.Bands, onsets, notes, graph, model, cancellation);
        return new(graph, evidence.Scores(heard.Curves, model));
    }
}
