using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>Which level of the beat a recording has: that of its best row, or another one of the same beat.</summary>
/// <param name="Range">The tempi of the level; null where it is the best row's own.</param>
/// <param name="Tempi">For each of <see cref="BeatRow.Ratios"/>, from this level on, how likely it is.</param>
internal sealed record HeardLevel(TempoRange? Range, double[] Tempi)
{
    /// <summary>The levels that are weighed, as multiples of the best row's interval.</summary>
    private static readonly double[] Levels = [1, 2, 0.5];

    /// <summary>How far a level's tempi may go beyond those of the best row: it bends elsewhere.</summary>
    private const double Beyond = 1.15;

    private const int FewestBeats = 8;

    /// <param name="scored">All rows, by the evidence alone.</param>
    public static HeardLevel Of(ScoredRows scored, LevelFeatures features, BeatModel model, LevelModel levels, CancellationToken cancellation)
    {
        var rows = Rows(scored, features, model, cancellation);
        var tempi = rows[0].Row.Tempi;
        if (rows.Count < 2)
            return new(null, tempi);
        var shares = levels.Shares([.. rows.Select(r => r.Features)]);
        var best = Array.IndexOf(shares, shares.Max());
        return new(rows[best].Range, Retold(tempi, [.. rows.Select(r => r.Ratio)], shares, rows[best].Ratio));
    }

    /// <summary>The best row at each level with its features, the best of all first; it alone where it is too short to tell.</summary>
    internal static List<LevelRow> Rows(ScoredRows scored, LevelFeatures features, BeatModel model, CancellationToken cancellation)
    {
        var free = new RowClaims(Claims.None, new());
        var own = free.Read(scored, model, null, cancellation);
        var rows = new List<LevelRow>();
        foreach (var ratio in own.Beats.Length < FewestBeats ? Levels[..1] : Levels)
        {
            var range = ratio == 1 ? null : RangeOf(own.Beats, ratio);
            if (range is not null && (!IsThere(range, scored.Rows) || (ratio < 1 && !features.AreHalved(own.Beats))))
                continue;
            var row = range is null ? own : free.Read(scored, model, range, cancellation);
            var place = Array.IndexOf(BeatRow.Ratios, ratio);
            if (row.Beats.Length >= FewestBeats / 2)
                rows.Add(new(place, range, row, features.Of(row.Beats, own.Tempi[place], ratio < 1, cancellation)));
        }
        return rows.Count == 0 ? [new(0, null, own, [])] : rows;
    }

    private static bool IsThere(TempoRange range, RowGraph rows)
    {
        var (slowest, fastest) = (60 * PulseEvidence.FrameRate / rows.Longest, 60 * PulseEvidence.FrameRate / rows.Shortest);
        var middle = Math.Sqrt(range.Slowest * range.Fastest);
        return middle > slowest && middle < fastest;
    }

    private static TempoRange RangeOf(ImmutableArray<ReadBeat> beats, double ratio)
    {
        double[] tempi = [.. beats.Skip(1).Select(b => 60 * PulseEvidence.FrameRate / (b.Interval * ratio)).Order()];
        return new(tempi[tempi.Length / 20] / Beyond, tempi[tempi.Length - 1 - tempi.Length / 20] * Beyond);
    }

    /// <summary>Shares of tempi seen from another level, what all levels together have shared out anew among them.</summary>
    private static double[] Retold(double[] tempi, int[] levels, double[] shares, int from)
    {
        var (told, among) = (new double[tempi.Length], levels.Sum(l => tempi[l]));
        for (var r = 0; r < tempi.Length; r++)
        {
            var level = Array.IndexOf(levels, r);
            var seen = Array.FindIndex(BeatRow.Ratios, q => Math.Abs(q * BeatRow.Ratios[from] - BeatRow.Ratios[r]) < 1e-9);
            if (seen >= 0)
                told[seen] += level >= 0 ? among * shares[level] : tempi[r];
        }
        return told;
    }
}
