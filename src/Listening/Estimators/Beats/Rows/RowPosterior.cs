using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// How the likelihood of all rows is shared out (forward–backward). Scores count by a part of themselves: what neighbouring beats say isn't
/// independent, and a song of many beats would be sure of anything.
/// </summary>
internal sealed class RowPosterior
{
    private const int Tolerance = 3;
    private const double NearRatio = 0.11;

    private readonly RowGraph rows;
    private readonly double[] steps;
    private readonly double[] kinds;

    public RowPosterior(RowGraph rows, BeatModel model, double[] scores, int start, int end, double[]? steady)
    {
        this.rows = rows;
        var temper = model.Sureness.Temper;
        var lattice = new RowLattice<LogSumOf>(rows, BarPlaces.Bars, model.Costs.Times(temper), [.. scores.Select(s => temper * s)], start, end, steady);
        (steps, kinds) = (new double[rows.Steps], new double[rows.Steps * BarModel.Lengths.Length]);
        for (var s = 0; s < rows.Steps; s++)
        {
            for (var p = 0; p < BarModel.Places; p++)
            {
                var share = Math.Exp(lattice.Through(s, p) - lattice.Total);
                steps[s] += share;
                kinds[s * BarModel.Lengths.Length + BarModel.KindOf[p]] += share;
            }
        }
    }

    /// <summary>The shares of a row's beats.</summary>
    public BeatRow Of(List<(int Step, int Place)> row, Dictionary<int, BeatClaim> held)
    {
        var (tempi, kind) = (new double[BeatRow.Ratios.Length], new double[BarModel.Lengths.Length]);
        var beats = ImmutableArray.CreateBuilder<ReadBeat>();
        foreach (var (step, place) in row)
        {
            var frame = rows.Frame(rows.End(step));
            var interval = rows.Interval(step) is > 0 and var own ? own : row.Count > 1 ? rows.Interval(row[1].Step) : 0;
            beats.Add(new(frame, interval, place, Near(frame, kind, row.Count), held.TryGetValue(rows.End(step), out var claim) ? claim.Time.Value : null));
            if (rows.Interval(step) > 0)
                Cover(frame - interval / 2, interval, tempi);
        }
        var sum = tempi.Sum() + 1e-12;
        return new(beats.ToImmutable(), [.. tempi.Select(t => t / sum)], kind);
    }

    /// <summary>The share of rows that have a beat near a frame; what kinds of bars they have there is added up.</summary>
    private double Near(int frame, double[] kind, int beats)
    {
        var sum = 0.0;
        for (var m = rows.FirstFrom(frame - Tolerance); m < rows.Moments && rows.Frame(m) <= frame + Tolerance; m++)
        {
            var (from, to) = rows.EndingAt(m);
            for (var s = from; s < to; s++)
            {
                sum += steps[s];
                for (var k = 0; k < kind.Length; k++)
                    kind[k] += kinds[s * kind.Length + k] / beats;
            }
        }
        return Math.Min(1, sum);
    }

    /// <summary>Adds the shares of the rows that pass over a frame by an interval of each ratio.</summary>
    private void Cover(int frame, int interval, double[] tempi)
    {
        for (var m = rows.FirstFrom(frame + 1); m < rows.Moments && rows.Frame(m) <= frame + rows.Longest; m++)
        {
            var (from, to) = rows.EndingAt(m);
            for (var s = from; s < to - 1; s++)
            {
                if (rows.Frame(rows.Start(s)) > frame)
                    continue;
                var ratio = Array.FindIndex(BeatRow.Ratios, r => Math.Abs(Math.Log(rows.Interval(s) / (r * interval))) < NearRatio);
                if (ratio >= 0)
                    tempi[ratio] += steps[s];
            }
        }
    }
}
