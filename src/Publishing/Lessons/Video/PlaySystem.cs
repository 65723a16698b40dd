using System.Collections.Immutable;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// One or two bars across the screen with all their parts, and where on them a moment stands. A line stays still while a
/// marker moves over it.
/// </summary>
internal sealed class PlaySystem
{
    private const double LeftMargin = 33;
    private const double NumberRoom = 9;

    private readonly ImmutableArray<BarSlot> slots;
    private readonly double width;
    private readonly double words;

    private PlaySystem(ImmutableArray<TimedBar> bars, ImmutableArray<BarSlot> slots, IReadOnlyList<BarRow> rows, double width, double words)
    {
        (Bars, this.slots, this.width, this.words) = (bars, slots, width, words);
        Drawing = With(rows);
    }

    public ImmutableArray<TimedBar> Bars { get; }

    public Drawing Drawing { get; }

    /// <summary>What is free beside the first bar's number, up to the next bar, in points.</summary>
    public (double Left, double Right) NumberSpan => (slots[0].Left + 2 + NumberWidth(Bars[0]), slots[0].Right);

    /// <summary>The same bars with some of their rows only.</summary>
    public Drawing With(IReadOnlyList<BarRow> rows) => Draw(Needed(rows, slots));

    /// <summary>The song in lines of two bars, of one where two would crowd each other; a section begins a new line.</summary>
    /// <param name="width">Points.</param>
    /// <param name="words">The size of the smallest words in points: the rows' names, the bars' numbers.</param>
    public static ImmutableArray<PlaySystem> Of(LessonTimeline timeline, IReadOnlyList<BarRow> rows, double width, double words) =>
        [.. timeline.Bars.GroupBy(b => b.SectionIndex).SelectMany(section => Break([.. section], rows, width, words))];

    private static IEnumerable<PlaySystem> Break(ImmutableArray<TimedBar> bars, IReadOnlyList<BarRow> rows, double width, double words)
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
            yield return new(pair, slots, rows, width, words);
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

    private static BarRow[] Needed(IReadOnlyList<BarRow> rows, ImmutableArray<BarSlot> slots) =>
        [.. rows.Where(r => slots.Any(s => r.Has(s.Bar))).Select(r => r.For(slots.Select(s => s.Bar)))];

    private static double Beats(IEnumerable<TimedBar> bars) => bars.Sum(b => b.Bar.Meter.BarLength.Value);

    private static bool Stand(ImmutableArray<BarSlot> slots, IReadOnlyList<BarRow> rows) =>
        rows.All(r => slots.All(s => !r.Has(s.Bar) || r.Fits(s)));

    private Drawing Draw(BarRow[] rows)
    {
        var sketch = new Sketch();
        var y = NumberRoom;
        foreach (var row in rows)
        {
            row.DrawMargin(sketch, LeftMargin, y, words);
            foreach (var slot in slots.Where(s => row.Has(s.Bar)))
                row.Draw(sketch, slot, y);
            y += row.Height;
        }
        for (var i = 0; i < slots.Length; i++)
        {
            sketch.Line(slots[i].Left, 0.5, slots[i].Left, y, 0.5);
            DrawNumber(sketch, Bars[i], slots[i].Left + 2);
        }
        sketch.Line(slots[^1].Right - 0.5, 0.5, slots[^1].Right - 0.5, y, 0.5);
        return sketch.ToDrawing(width, y);
    }

    /// <summary>The bar's number, and its meter where that is another than the bar's before.</summary>
    private void DrawNumber(Sketch sketch, TimedBar bar, double left)
    {
        sketch.Text(bar.Name, left, NumberRoom - 2, Face.Narrow, NumberSize, Tint.Quiet);
        if (bar.ChangesMeter)
            sketch.Text(bar.Bar.Meter.ToString(), left + NumberWidth(bar), NumberRoom - 2, Face.NarrowStrong, NumberSize, align: Align.Right);
    }

    private double NumberSize => Math.Max(7.4, words);

    private double NumberWidth(TimedBar bar) => FontBook.Width(bar.Name, Face.Narrow, NumberSize)
        + (bar.ChangesMeter ? 5 + FontBook.Width(bar.Bar.Meter.ToString(), Face.NarrowStrong, NumberSize) : 0);
}
