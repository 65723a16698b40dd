using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>What the page's script reads: times in seconds to the millisecond, drawings by their templates' numbers.</summary>
internal static class PageData
{
    public static object Of(LessonTimeline timeline, PageDrawings drawings, double length) => new
    {
        Length = Ms(length),
        Tuning = TuningCard.Lines(timeline.Song),
        Tempo = timeline.Song.Tempo.Value,
        Sections = Sections(timeline, drawings),
        Bars = timeline.Bars.Select((bar, i) => new
        {
            bar.Bar.Number,
            Meter = bar.ChangesMeter ? bar.Bar.Meter.ToString() : "",
            Beats = bar.BeatTimes.Select(Ms),
            Widths = drawings.Bars[i].Select(b => new { Drawing = b.Template, Places = b.Beats }),
        }),
        Chords = timeline.Chords.Select((c, i) => new { Start = Ms(c.Start), End = Ms(c.End), Name = CapoNames.Of(timeline.Song)?.First(c.Value.Name)
            ?? c.Value.Name, Drawing = drawings.Chords[i] }),
        Silences = Enumerable.Range(-1, timeline.Chords.Length + 1).Where(timeline.IsSilentAfter),
        Harp = timeline.Harp.Select(h => new
        {
            Start = Ms(h.Start),
            End = Ms(h.End),
            Holes = string.Join(' ', h.Value.OrderBy(n => n.Hole).Select(HarpSign.Shown)),
            Breath = h.Value[0].Breath == Breath.Blow ? "blow" : "draw",
        }),
    };

    private static IEnumerable<object> Sections(LessonTimeline timeline, PageDrawings drawings) =>
        timeline.Bars.Select((bar, index) => (bar.SectionIndex, index)).GroupBy(b => b.SectionIndex)
            .Select(g => new { timeline.Song.Sections[g.Key].Name, First = g.Min(b => b.index), Last = g.Max(b =>
                b.index), Margin = drawings.MarginOf(g.Key) });

    private static double Ms(double seconds) => Math.Round(seconds, 3);
}
