using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// What a person claims of beats, as scores: a row must hold to it whatever the evidence says. Where the row that the evidence alone gives runs
/// on steadily, a claim that contradicts it moves the row as a whole: a jump of the beat or a cut bar costs there what only claims can pay.
/// </summary>
internal sealed class RowClaims
{
    private const double Forced = 200;
    private const double Steady = 100;

    /// <summary>What a beat at a told tempo gains: it is expected, however unusual.</summary>
    private const double Expected = 2;

    /// <summary>What each beat of a row costs that a person's beat contradicts: it isn't a beat then.</summary>
    private const double Contradicted = 6;

    /// <summary>What each beat costs there an octave from the tempo: who moves a beat doesn't mean another tempo.</summary>
    private const double OtherTempo = 16;

    private const double FarthestTempo = 0.25;

    /// <summary>Beats that a person put nearer together than such a part of a beat are of a faster level.</summary>
    private const double LeastOfABeat = 0.75;

    /// <summary>How far a beat may lie from where a person put it, in frames: taps come so near.</summary>
    private const int Near = 2;

    private readonly Claims claims;
    private readonly BeatClaim[] beats;

    public RowClaims(Claims claims, BeatOptions options)
    {
        if (claims.Beats.FirstOrDefault(b => b.PositionInBar < 1) is { } odd)
            throw new ArgumentOutOfRangeException(nameof(claims), odd.PositionInBar, "A beat's position in its bar is 1 or more.");
        (this.claims, beats) = (claims, [.. claims.Beats.OrderBy(b => b.Time)]);
        var (slowest, fastest) = (options.SlowestBeatsPerMinute, options.FastestBeatsPerMinute);
        if (claims.Tempo is { } told)
            (slowest, fastest) = (Math.Min(slowest, told.Slowest), Math.Max(fastest, told.Fastest));
        Shortest = (int)Math.Floor(60 * PulseEvidence.FrameRate / fastest);
        Longest = (int)Math.Ceiling(60 * PulseEvidence.FrameRate / slowest);
    }

    /// <summary>The intervals that come into question, in frames.</summary>
    public int Shortest { get; }

    public int Longest { get; }

    /// <summary>The frames of a stretch that a person put beats on.</summary>
    public int[] Frames(SoundingSpan piece) => [.. beats.Select(b => Frame(b)).Where(f => f >= piece.First && f <= piece.Last).Distinct()];

    /// <summary>Whether rows that were made without these claims can be read with them.</summary>
    public bool Fits(RowGraph rows) =>
        rows.Shortest == Shortest && rows.Longest == Longest
        && beats.All(b => Frame(b) < rows.Frame(0) - Near || Frame(b) > rows.Frame(rows.Moments - 1) + Near || rows.Nearest(Frame(b), Near) >= 0);

    /// <summary>Whether nothing is claimed that bears on beats.</summary>
    public bool AreNone => beats.Length == 0 && claims.Tempo is null && claims.Meter is null;

    /// <summary>
    /// Whether the claims leave open how long a beat is: no tempo is told, and no beats lie nearer together than a level has them.
    /// </summary>
    public bool Allow(TempoRange level) =>
        claims.Tempo is null && beats.Skip(1).Zip(beats, (b, a) => (b.Time - a.Time).Value).All(gap => gap > LeastOfABeat * 60 / level.Fastest);

    /// <summary>The best row that holds to all claims, and how the likelihood of all such rows is shared out.</summary>
    /// <param name="level">The tempi that it keeps to; null for any.</param>
    public BeatRow Read(ScoredRows scored, BeatModel model, TempoRange? level, CancellationToken cancellation)
    {
        var rows = scored.Rows;
        if (rows.Moments < 2)
            return new([], new double[BeatRow.Ratios.Length], new double[BarModel.Lengths.Length]);
        var held = new Dictionary<int, BeatClaim>();
        foreach (var beat in beats)
        {
            if (rows.Nearest(Frame(beat), Near) is >= 0 and var moment)
                held[moment] = beat;
        }
        var scores = (double[])scored.Scores.Clone();
        Restrict(rows, scores, level);
        var (steady, start, end) = held.Count == 0 ? (null, int.MaxValue, 0) : Hold(scored, model, held, scores);
        cancellation.ThrowIfCancellationRequested();
        var best = new RowLattice<MaxOf>(rows, BarPlaces.Bars, model.Costs, scores, start, end, steady).Best();
        cancellation.ThrowIfCancellationRequested();
        return new RowPosterior(rows, model, scores, start, end, steady).Of(best, held);
    }

    private static int Frame(BeatClaim beat) => (int)Math.Round(beat.Time.Value * PulseEvidence.FrameRate);

    /// <summary>A told meter leaves its bars, a told tempo or a level its intervals.</summary>
    private void Restrict(RowGraph rows, double[] scores, TempoRange? level)
    {
        var kind = claims.Meter is { } meter ? Array.IndexOf(BarModel.Lengths, meter.BeatsPerBar) : -1;
        if (kind < 0 && (claims.Tempo ?? level) is null)
            return;
        var gain = claims.Tempo is null ? 0 : Expected;
        var (shortest, longest) = (claims.Tempo ?? level) is { } tempo
            ? (60 * PulseEvidence.FrameRate / tempo.Fastest - 1, 60 * PulseEvidence.FrameRate / tempo.Slowest + 1)
            : (0, double.PositiveInfinity);
        for (var s = 0; s < rows.Steps; s++)
        {
            var isTold = rows.Interval(s) == 0 || (rows.Interval(s) >= shortest && rows.Interval(s) <= longest);
            var tempoCost = isTold ? -gain : Forced;
            for (var p = 0; p < BarModel.Places; p++)
                scores[s * BarModel.Places + p] -= tempoCost + (kind < 0 || BarModel.KindOf[p] == kind ? 0 : Forced);
        }
    }

    /// <summary>
    /// Makes every row pass through the held beats; returns what jumps and cut bars cost at each moment, and the moments that a row must start by and
    /// may end from: a claim takes no beats away.
    /// </summary>
    private static (double[] Steady, int Start, int End) Hold(ScoredRows scored, BeatModel model, Dictionary<int, BeatClaim> held, double[] scores)
    {
        var rows = scored.Rows;
        var alone = new RowLattice<MaxOf>(rows, BarPlaces.Bars, model.Costs, scores).Best();
        var steady = SteadyAt(rows, alone);
        var frames = alone.Select(b => rows.Frame(rows.End(b.Step))).ToArray();
        bool IsOf(int moment) => frames.Any(f => Math.Abs(f - rows.Frame(moment)) <= 2 * Near);
        bool Agrees(int moment) => held[moment].PositionInBar is not { } told
            || alone.Any(b => Math.Abs(rows.Frame(rows.End(b.Step)) - rows.Frame(moment)) <= 2 * Near && BarModel.PositionOf(b.Place) == told);
        var notBeats = Contradict(rows, held, steady, IsOf);
        var notBars = Contradict(rows, held, steady, m => IsOf(m) && Agrees(m));
        var intervals = Intervals(rows, alone);
        var downbeats = alone.Where(b => BarModel.IsDownbeat(b.Place)).Select(b => rows.End(b.Step)).ToHashSet();
        for (var s = 0; s < rows.Steps; s++)
        {
            var (start, end) = (rows.Start(s), rows.End(s));
            var cost = start >= 0 && held.Keys.Any(m => m > start && m < end) ? Forced : 0;
            cost += notBeats[end] && IsOf(end) ? Contradicted : 0;
            cost += notBeats[end] ? OtherTempo * Apart(rows.Interval(s), intervals[end]) : 0;
            var notBar = notBars[end] && downbeats.Contains(end) ? Contradicted : 0;
            int? position = held.TryGetValue(end, out var claim) && claim.PositionInBar <= BarModel.Lengths[^1] ? claim.PositionInBar : null;
            for (var p = 0; p < BarModel.Places; p++)
            {
                var elsewhere = position is null || BarModel.PositionOf(p) == position ? 0 : Forced;
                scores[s * BarModel.Places + p] -= cost + (BarModel.IsDownbeat(p) ? notBar : 0) + elsewhere;
            }
        }
        if (alone.Count == 0)
            return (steady, held.Keys.Min(), held.Keys.Max());
        var (first, last) = (rows.FirstFrom(frames[0] + rows.Longest), rows.FirstFrom(frames[^1] - rows.Longest));
        return (steady, Math.Min(first, held.Keys.Min()), Math.Max(last, held.Keys.Max()));
    }

    /// <summary>
    /// The moments in whose stretch a person put a beat that doesn't agree: from the last held beat that agrees, or where the stretch begins, to
    /// the next.
    /// </summary>
    private static bool[] Contradict(RowGraph rows, Dictionary<int, BeatClaim> held, double[] steady, Func<int, bool> agrees)
    {
        var contradicted = new bool[rows.Moments];
        bool IsBorder(int m) => m < 0 || m >= rows.Moments || steady[m] == 0 || (held.ContainsKey(m) && agrees(m));
        foreach (var claim in held.Keys.Where(m => !agrees(m)))
        {
            for (var m = claim; !IsBorder(m); m--)
                contradicted[m] = true;
            for (var m = claim; !IsBorder(m); m++)
                contradicted[m] = true;
        }
        return contradicted;
    }

    /// <summary>Octaves between two intervals, as far as they count.</summary>
    private static double Apart(int interval, int usual) =>
        interval > 0 && usual > 0 ? Math.Min(FarthestTempo, Math.Abs(Math.Log2((double)interval / usual))) : 0;

    /// <summary>At each moment the interval of the row there; 0 beyond its ends.</summary>
    private static int[] Intervals(RowGraph rows, List<(int Step, int Place)> row)
    {
        var intervals = new int[rows.Moments];
        foreach (var step in row.Select(b => b.Step).Where(s => rows.Start(s) >= 0))
            Array.Fill(intervals, rows.Interval(step), rows.Start(step) + 1, rows.End(step) - rows.Start(step));
        return intervals;
    }

    /// <summary>What a jump or a cut bar costs at each moment: nothing about those that the row itself makes.</summary>
    private static double[] SteadyAt(RowGraph rows, List<(int Step, int Place)> row)
    {
        var costs = new double[rows.Moments];
        Array.Fill(costs, Steady);
        for (var k = 1; k < row.Count; k++)
        {
            var (before, here) = (row[k - 1], row[k]);
            if (!RowCosts.IsJump(rows.Interval(before.Step), rows.Interval(here.Step)) && BarModel.After(before.Place) == here.Place)
                continue;
            var (from, to) = (row[Math.Max(0, k - 3)], row[Math.Min(row.Count - 1, k + 2)]);
            for (var m = rows.End(from.Step); m <= rows.End(to.Step); m++)
                costs[m] = 0;
        }
        return costs;
    }
}
