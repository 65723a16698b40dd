using System.Collections.Immutable;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>
/// A bar cut out of its row, so that the page puts as many side by side as its screen holds, behind one margin with the
/// rows' names. The page draws the row's closing line, the bar's number and its meter.
/// </summary>
internal static class BarStrip
{
    private const double MarginWidth = 33;
    private const double Top = 1;

    public static Drawing Margin(IReadOnlyList<BarRow> rows)
    {
        var sketch = new Sketch();
        var y = Top;
        foreach (var row in rows)
        {
            row.DrawMargin(sketch, MarginWidth, y);
            y += row.Height;
        }
        return sketch.ToDrawing(MarginWidth, y);
    }

    /// <returns>The bar with the rows given, and where its beats and its end stand, 0 to 1 of its width.</returns>
    public static (Drawing Drawing, ImmutableArray<double> Beats) Of(TimedBar bar, IReadOnlyList<BarRow> rows, double beatWidth)
    {
        var (sketch, slot, y) = (new Sketch(), Slot(bar, beatWidth), Top);
        foreach (var row in rows)
        {
            if (row.Has(bar.Bar))
                row.Draw(sketch, slot, y);
            y += row.Height;
        }
        sketch.Line(0.25, 0.5, 0.25, y, 0.5);
        return (sketch.ToDrawing(slot.Width, y), [.. Enumerable.Range(0, bar.BeatTimes.Length).Select(b => slot.X(bar.PlaceOf(b)) / slot.Width)]);
    }

    /// <summary>Whether a bar's content stands well at so many points a beat.</summary>
    public static bool Stands(TimedBar bar, IReadOnlyList<BarRow> rows, double beatWidth) =>
        rows.All(r => !r.Has(bar.Bar) || r.Fits(Slot(bar, beatWidth)));

    private static BarSlot Slot(TimedBar bar, double beatWidth) => new(bar.Bar, 0, beatWidth * bar.Bar.Meter.BarLength.Value);
}
