using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>Which level of the beat a recording has: that of its best row, or another one of the same beat.</summary>
/// <param name="Range">The tempi of the level; null where it is the best row's own.</param>
/// <param name="Tempi">For each of <see cref="BeatRow.Ratios"/>, from this level on, how likely it is.</param>
internal sealed record HeardLevel(TempoRange? Range, double[] Tempi)
{
    /// <summary>How far a level's tempi may go beyond those of the best row: it bends elsewhere.</summary>
    private const double Beyond = 1.15;

    private const int FewestBeats = 8;

    /// <param name="scored">All rows, by the evidence alone.</param>
    public static HeardLevel Of(ScoredRows scored, LevelFeatures features, BeatModel model, LevelModel levels, CancellationToken cancellation)
    {
        var free = new RowClaims(Claims.None, new());
        var own = free.Read(scored, model, null, cancellation);
        if (own.Beats.Length < FewestBeats)
            return new(null, own.Tempi);
        List<LevelRow> rows = [new(0, null, own, features.Of(own.Beats, cancellation))];
        double[] others = features.AreHalved(own.Beats) ? [2, 0.5] : [2];
        rows.AddRange(others.Select(ratio => At(RangeOf(own.Beats, ratio), ratio, scored, features, model, cancellation)).OfType<LevelRow>());
        if (rows.Count < 2)
            return new(null, own.Tempi);
        var shares = levels.Shares(rows, model.Habits);
        var best = Array.IndexOf(shares, shares.Max());
        return new(rows[best].Range, Retold(own.Tempi, [.. rows.Select(r => r.Ratio)], shares, rows[best].Ratio));
    }

    /// <summary>The best row at half a tempo, at it and at twice it, where they are there; what levels are is learnt from those of known tempi.</summary>
    internal static List<LevelRow> About(double tempo, ScoredRows scored, LevelFeatures features, BeatModel model, CancellationToken cancellation) =>
        [.. new[] { 2, 1, 0.5 }.Select(ratio => At(new(tempo / ratio / Beyond, tempo / ratio * Beyond), ratio, scored, features, model, cancellation))
            .OfType<LevelRow>()];

    private static LevelRow? At(TempoRange range, double ratio, ScoredRows scored, LevelFeatures features, BeatModel model, CancellationToken cancellation)
    {
        if (!IsThere(range, scored.Rows))
            return null;
        var row = new RowClaims(Claims.None, new()).Read(scored, model, range, cancellation);
        return row.Beats.Length < FewestBeats / 2 ? null
            : new(Array.IndexOf(BeatRow.Ratios, ratio), range, row, features.Of(row.Beats, cancellation));
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
