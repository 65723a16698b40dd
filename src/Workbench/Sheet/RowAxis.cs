using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Units;

namespace Harkbook.Workbench.Sheet;

/// <summary>Where the record's time runs along a row of bars: straight from beat to beat, over the bar lines too.</summary>
public sealed class RowAxis
{
    private readonly ImmutableArray<(double Time, double X)> points;

    public RowAxis(OpenRow row, SongClock clock) => points =
    [
        .. row.Bars.SelectMany(bar => Enumerable.Range(0, bar.Bar.Meter.BeatsPerBar).Select(beat => (clock.TimeOf(bar.Bar.Number, Beats.Whole(beat)).Value,
            bar.X(Beats.Whole(beat))))),
        (clock.TimeOf(row.Bars[^1].Bar.Number + 1).Value, row.Bars[^1].Right - 1),
    ];

    /// <summary>Each beat and the row's end, rising in both.</summary>
    public ImmutableArray<(double Time, double X)> Points => points;

    public double From => points[0].Time;

    public double To => points[^1].Time;

    public bool Meets(double from, double to) => to > From && from < To;

    /// <summary>What lies before the row or behind it stands at its ends.</summary>
    public double X(double time)
    {
        if (time <= From)
            return points[0].X;
        var after = 1;
        while (after < points.Length && points[after].Time < time)
            after++;
        if (after == points.Length)
            return points[^1].X;
        var (a, b) = (points[after - 1], points[after]);
        return a.X + (time - a.Time) / Math.Max(1e-9, b.Time - a.Time) * (b.X - a.X);
    }
}
