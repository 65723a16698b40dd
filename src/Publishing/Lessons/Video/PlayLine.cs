using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// One or two bars across the screen with all their parts, and where on them a moment stands. A line stays still while a
/// marker moves over it.
/// </summary>
internal sealed class PlayLine
{
    private const double LeftMargin = 33;
    private const double NumberRoom = 9;

    private readonly ImmutableArray<BarSlot> slots;
    private readonly double width;

    private PlayLine(ImmutableArray<TimedBar> bars, ImmutableArray<BarSlot> slots, IReadOnlyList<BarRow> rows, double width)
    {
        (Bars, this.slots, this.width) = (bars, slots, width);
        Drawing = With(rows);
    }

    public ImmutableArray<TimedBar> Bars { get; }

    public Drawing Drawing { get; }

    /// <summary>The same bars with some of their rows only.</summary>
    public Drawing With(IReadOnlyList<BarRow> rows) => Draw(slots, [.. rows.Where(r => slots.Any(s => r.Has(s.Bar)))], width);

    /// <summary>The song in lines of two bars, of one where two would crowd each other; a section begins a new line.</summary>
    /// <param name="width">Points.</param>
    public static ImmutableArray<PlayLine> Of(LessonTimeline timeline, IReadOnlyList<BarRow> rows, double width) =>
        [.. timeline.Bars.GroupBy(b => b.SectionIndex).SelectMany(section => Break([.. section], rows, width))];

    private static IEnumerable<PlayLine> Break(ImmutableArray<TimedBar> bars, IReadOnlyList<BarRow> rows, double width)
    {
        var beatsBefore = 0.0;
        for (var next = 0; next < bars.Length;)
        {
            var pair = bars[next..Math.Min(next + 2, bars.Length)];
            var slots = Slots(pair, width, pair.Length == 1 ? beatsBefore : 0);
            if ((pair.Length == 2 || beatsBefore > 0) && !Stand(slots, rows))
                slots = Slots(pair = pair[..1], width, 0);
            beatsBefore = pair.Length == 2 ? Beats(pair) : 0;
            next += pair.Length;
            yield return new(pair, slots, rows, width);
        }
    }

    /// <summary>The marker's place in points at a time within the line.</summary>
    public double MarkerAt(double time)
    {
        var index = Bars.Length - 1;
        while (index > 0 && time < Bars[index].Start)
            index--;
        var (bar, slot) = (Bars[index], slots[index]);
        var beat = 0;
        while (beat + 2 < bar.BeatTimes.Length && time >= bar.BeatTimes[beat + 1])
            beat++;
        var length = bar.BeatTimes[beat + 1] - bar.BeatTimes[beat];
        var within = length > 0 ? Math.Clamp((time - bar.BeatTimes[beat]) / length, 0, 1) : 0;
        var (from, to) = (slot.X(bar.PlaceOf(beat)), slot.X(bar.PlaceOf(beat + 1)));
        return from + within * (to - from);
    }

    /// <summary>A section's last bar alone keeps the width that it would have beside another.</summary>
    private static ImmutableArray<BarSlot> Slots(ImmutableArray<TimedBar> bars, double width, double beatsBefore)
    {
        var beatWidth = (width - LeftMargin) / Math.Max(Beats(bars), beatsBefore);
        var left = LeftMargin;
        var slots = ImmutableArray.CreateBuilder<BarSlot>();
        foreach (var bar in bars)
        {
            slots.Add(new(bar.Bar, left, beatWidth * bar.Bar.Meter.BarLength.Value));
            left = slots[^1].Right;
        }
        return slots.ToImmutable();
    }

    private static double Beats(IEnumerable<TimedBar> bars) => bars.Sum(b => b.Bar.Meter.BarLength.Value);

    private static bool Stand(ImmutableArray<BarSlot> slots, IReadOnlyList<BarRow> rows) =>
        rows.All(r => slots.All(s => !r.Has(s.Bar) || r.Fits(s)));

    private static Drawing Draw(ImmutableArray<BarSlot> slots, BarRow[] rows, double width)
    {
        var sketch = new Sketch();
        var y = NumberRoom;
        foreach (var row in rows)
        {
            row.DrawMargin(sketch, LeftMargin, y);
            foreach (var slot in slots.Where(s => row.Has(s.Bar)))
                row.Draw(sketch, slot, y);
            y += row.Height;
        }
        foreach (var slot in slots)
        {
            sketch.Line(slot.Left, 0.5, slot.Left, y, 0.5);
            sketch.Text(slot.Bar.Number.ToString(CultureInfo.InvariantCulture), slot.Left + 2, NumberRoom - 2, Face.Narrow, 7.4, Tint.Quiet);
        }
        sketch.Line(slots[^1].Right - 0.5, 0.5, slots[^1].Right - 0.5, y, 0.5);
        return sketch.ToDrawing(width, y);
    }
}
