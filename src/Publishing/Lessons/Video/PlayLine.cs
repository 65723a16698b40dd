using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// Two bars across the screen with all their parts, and where on them a moment stands. Lines are pages of the play-along:
/// the one being played stays still while a marker moves over it, and the next stands below.
/// </summary>
internal sealed class PlayLine
{
    private const double LeftMargin = 33;
    private const double NumberRoom = 9;

    private readonly ImmutableArray<BarSlot> slots;
    private readonly ImmutableArray<TimedBar> bars;

    private PlayLine(ImmutableArray<TimedBar> bars, IReadOnlyList<BarRow> rows, double width)
    {
        this.bars = bars;
        var beats = bars.Sum(b => b.Bar.Meter.BarLength.Value);
        var left = LeftMargin;
        var built = ImmutableArray.CreateBuilder<BarSlot>();
        foreach (var bar in bars)
        {
            var share = (width - LeftMargin) * bar.Bar.Meter.BarLength.Value / beats;
            built.Add(new(bar.Bar, left, share));
            left += share;
        }
        slots = built.ToImmutable();
        Drawing = Draw(rows, width);
    }

    public Drawing Drawing { get; }

    public double Start => bars[0].Start;

    public double End => bars[^1].End;

    /// <summary>The song in lines of two bars; a section begins a new line.</summary>
    /// <param name="width">Points.</param>
    public static ImmutableArray<PlayLine> Of(LessonTimeline timeline, IReadOnlyList<BarRow> rows, double width) =>
    [
        .. timeline.Bars.GroupBy(b => b.SectionIndex)
            .SelectMany(section => section.Chunk(2))
            .Select(pair => new PlayLine([.. pair], rows, width)),
    ];

    /// <summary>The marker's place in points at a time within the line.</summary>
    public double MarkerAt(double time)
    {
        var index = Math.Max(0, bars.Length - 1);
        while (index > 0 && time < bars[index].Start)
            index--;
        var (bar, slot) = (bars[index], slots[index]);
        var beat = 0;
        while (beat + 2 < bar.BeatTimes.Length && time >= bar.BeatTimes[beat + 1])
            beat++;
        var length = bar.BeatTimes[beat + 1] - bar.BeatTimes[beat];
        var within = length > 0 ? Math.Clamp((time - bar.BeatTimes[beat]) / length, 0, 1) : 0;
        var (from, to) = (slot.X(Units.Beats.Whole(beat)), slot.X(Units.Beats.Whole(beat + 1)));
        return from + within * (to - from);
    }

    private Drawing Draw(IReadOnlyList<BarRow> rows, double width)
    {
        var sketch = new Sketch();
        var y = NumberRoom;
        foreach (var row in rows.Where(r => slots.Any(s => r.Has(s.Bar))))
        {
            row.DrawMargin(sketch, LeftMargin, y);
            foreach (var slot in slots.Where(s => row.Has(s.Bar)))
                row.Draw(sketch, slot, y);
            y += row.Height;
        }
        foreach (var slot in slots)
        {
            sketch.Line(slot.Left, 0.5, slot.Left, y, 0.5);
            sketch.Text(slot.Bar.Number.ToString(System.Globalization.CultureInfo.InvariantCulture), slot.Left + 2, NumberRoom - 2, Face.Narrow, 7.4, Tint.Quiet);
        }
        sketch.Line(width - 0.5, 0.5, width - 0.5, y, 0.5);
        return sketch.ToDrawing(width, y);
    }
}
