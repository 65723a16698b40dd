using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Rows;

/// <summary>
/// Breaks bars into systems and draws each with the rows it needs. A system takes as many bars as stand well (four at most);
/// beats are equally wide along a system, and a section's last keeps the width of the one before.
/// </summary>
internal sealed class BarSystems(IReadOnlyList<BarRow> rows, double width, SongClock? clock = null, int mostBars = 4)
{
    public const double Margin = 33;
    public const double Top = 9;
    private double lastBeatWidth;
    private Meter? meter;

    /// <summary>Whether a star stands behind the number of a bar in which something was corrected; a note must explain it.</summary>
    public bool StarsCorrections { get; init; }

    public IEnumerable<Drawing> Of(IReadOnlyList<Bar> bars) => WithSlots(bars).Select(system => system.Drawing);

    /// <summary>Each system with where its bars stand.</summary>
    public IEnumerable<(Drawing Drawing, IReadOnlyList<BarSlot> Slots)> WithSlots(IReadOnlyList<Bar> bars)
    {
        lastBeatWidth = 0;
        for (var next = 0; next < bars.Count;)
        {
            var slots = NextLine(bars, next);
            next += slots.Length;
            yield return (Draw(slots, next == bars.Count), slots);
        }
    }

    private double Room => width - Margin;

    private BarSlot[] NextLine(IReadOnlyList<Bar> bars, int first)
    {
        foreach (var count in Counts(bars.Count - first))
        {
            foreach (var beatWidth in BeatWidths(bars, first, count))
            {
                var slots = Slots(bars, first, count, beatWidth);
                if (rows.All(r => slots.All(p => !r.Has(p.Bar) || r.Fits(p))))
                    return Remembered(slots, beatWidth);
            }
        }
        var whole = BeatWidths(bars, first, 1)[^1];
        return Remembered(Slots(bars, first, 1, whole), whole);
    }

    /// <summary>Bars to try on a line: all that are left when they are few, else four, two, one, so that lines stay alike.</summary>
    private IEnumerable<int> Counts(int left)
    {
        if (left < mostBars)
            yield return left;
        for (var count = mostBars; count >= 1; count /= 2)
        {
            if (count <= left)
                yield return count;
        }
    }

    /// <summary>Widths a beat to try, the calmest first: as on the line before, else as if four bars filled the line, else filling it.</summary>
    private double[] BeatWidths(IReadOnlyList<Bar> bars, int first, int count)
    {
        var beats = bars.Skip(first).Take(count).Sum(b => b.Meter.BarLength.Value);
        var full = Room / beats;
        if (first + count < bars.Count || count == mostBars)
            return [full];
        var calm = lastBeatWidth > 0 ? lastBeatWidth : Room / (mostBars * bars[first].Meter.BarLength.Value);
        return calm < full ? [calm, full] : [full];
    }

    private BarSlot[] Remembered(BarSlot[] slots, double beatWidth)
    {
        lastBeatWidth = beatWidth;
        return slots;
    }

    private static BarSlot[] Slots(IReadOnlyList<Bar> bars, int first, int count, double beatWidth)
    {
        var left = Margin;
        var slots = new BarSlot[count];
        for (var i = 0; i < count; i++)
        {
            var bar = bars[first + i];
            slots[i] = new(bar, left, bar.Meter.BarLength.Value * beatWidth);
            left = slots[i].Right;
        }
        return slots;
    }

    private Drawing Draw(BarSlot[] slots, bool isLast)
    {
        var sketch = new Sketch();
        var y = Top;
        var used = rows.Where(r => slots.Any(p => r.Has(p.Bar))).Select(r => r.For(slots.Select(p => p.Bar))).ToArray();
        foreach (var row in used)
        {
            row.DrawMargin(sketch, Margin, y);
            foreach (var slot in slots)
            {
                if (row.Has(slot.Bar))
                    row.Draw(sketch, slot, y);
                else
                    row.DrawElsewhere(sketch, slot, y);
            }
            y += row.Height;
        }
        DrawBarLines(sketch, slots, y, isLast);
        foreach (var slot in slots)
            DrawNumber(sketch, slot);
        DrawMeterChanges(sketch, slots);
        if (clock is not null)
            sketch.Text(ClockText.Of(clock.TimeOf(slots[0].Bar.Number)), Margin - 5, Top - 2.4, Face.Narrow, 6.4, Tint.Quiet, Align.Right);
        return sketch.ToDrawing(width, y);
    }

    private void DrawNumber(Sketch sketch, BarSlot slot)
    {
        var left = slot.Left + 1.5;
        var wide = sketch.Text(Number(slot.Bar.Number), left, Top - 2.4, Face.Narrow, 6.4, Tint.Quiet);
        if (StarsCorrections && Corrections.Touch(slot.Bar))
            sketch.Text("*", left + wide + 0.4, Top - 2.4, Face.Narrow, 6.4, Tint.Ink);
    }

    private static void DrawBarLines(Sketch sketch, BarSlot[] slots, double bottom, bool isLast)
    {
        foreach (var slot in slots)
            sketch.Line(slot.Left, 0.5, slot.Left, bottom, 0.5);
        var right = slots[^1].Right;
        if (!isLast)
        {
            sketch.Line(right - 0.25, 0.5, right - 0.25, bottom, 0.5);
            return;
        }
        sketch.Line(right - 2.9, 0.5, right - 2.9, bottom, 0.5);
        sketch.Line(right - 0.7, 0.5, right - 0.7, bottom, 1.4, Tint.Quiet);
    }

    private void DrawMeterChanges(Sketch sketch, BarSlot[] slots)
    {
        foreach (var slot in slots)
        {
            var changes = meter is { } before && before != slot.Bar.Meter;
            meter = slot.Bar.Meter;
            if (changes)
                sketch.Text(slot.Bar.Meter.ToString(), slot.Left + 5 + FontBook.Width(Number(slot.Bar.Number), Face.Narrow, 6.4), Top - 2.4, Face.NarrowStrong,
                    8, Tint.Ink);
        }
    }

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
