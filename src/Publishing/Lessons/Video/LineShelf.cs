using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// The lower half of the screen. Low lines take turns in two places, so that the eye finds the next one before it is
/// played; under taller ones stands as much of the next line as there is room for: its chords and words, or its chords alone.
/// </summary>
internal sealed class LineShelf
{
    private const double Edge = Screen.Edge;
    private const double Bottom = Screen.Height - 28;
    private const double Room = 525;
    private const double RoomWithNext = 556;
    private const double Gap = 22;
    private const double ThenHeight = 62;
    private const double ThenSize = 44;

    private readonly LessonTimeline timeline;
    private readonly CapoNames? names;
    private readonly ImmutableArray<PlayLine> lines;
    private readonly int[] lineOfBar;
    private readonly double scale;
    private readonly double tallest;
    private readonly bool takesTurns;
    private readonly ImmutableArray<Drawing?> ahead;

    public LineShelf(LessonTimeline timeline)
    {
        this.timeline = timeline;
        names = CapoNames.Of(timeline.Song);
        BarRow[] rows = [new ChordRow(timeline.Song.Bars, names, 14), new TabRow(timeline.Song.Tuning.Value), new StrumRow(), new CountRow(timeline.Song.Counting), new SungRow(), new HarpRow(9.2)];
        const double Best = 3.95;
        lines = PlayLine.Of(timeline, rows, (Screen.Width - 2 * Edge) / Best);
        tallest = lines.Select(l => l.Drawing.Height).DefaultIfEmpty(0).Max();
        scale = Math.Min(Best, Room / Math.Max(1, tallest));
        tallest *= scale;
        takesTurns = 2 * tallest + Gap <= Room;
        ahead = takesTurns ? [] : [.. lines.Select((_, i) => Ahead(i, [rows[0], new CountRow(timeline.Song.Counting), rows[4]], [rows[0], rows[4]]))];
        Top = Bottom - (takesTurns ? 2 * tallest + Gap : lines.Select((_, i) => Height(i)).DefaultIfEmpty(0).Max());
        lineOfBar = [.. lines.SelectMany((l, i) => l.Bars.Select(_ => i))];
    }

    /// <summary>Where the shelf begins, in pixels from above.</summary>
    public double Top { get; }

    public void Draw(Sketch sketch, Moment moment)
    {
        if (lines.IsEmpty)
            return;
        var line = LineAt(moment);
        Place(sketch, line);
        sketch.Fill(new(Edge - 26, TopOf(line) + 4, Edge - 18, TopOf(line) + lines[line].Drawing.Height * scale), Tint.Now, 3);
        if (line + 1 == lines.Length)
            return;
        if (takesTurns)
            Place(sketch, line + 1);
        else if (ahead[line] is { } drawing)
            DrawAhead(sketch, line, drawing);
        else
            DrawThen(sketch, lines[line], lines[line + 1], TopOf(line) + lines[line].Drawing.Height * scale + ThenHeight - 14);
    }

    /// <summary>Where the marker stands.</summary>
    public Box MarkerAt(Moment moment, double time)
    {
        var line = LineAt(moment);
        var x = Edge + lines[line].MarkerAt(time) * scale;
        return new(x - 2, TopOf(line) + 8, x + 2, TopOf(line) + lines[line].Drawing.Height * scale);
    }

    /// <summary>The fullest of some choices of rows that fits under a line.</summary>
    private Drawing? Ahead(int line, params BarRow[][] choices)
    {
        var room = (RoomWithNext - Gap) / scale - lines[line].Drawing.Height;
        return line + 1 == lines.Length ? null : choices.Select(lines[line + 1].With).FirstOrDefault(d => d.Height <= room);
    }

    /// <summary>A line's height in pixels with what stands under it.</summary>
    private double Height(int line) => lines[line].Drawing.Height * scale + (ahead[line] is { } next ? Gap + next.Height * scale : ThenHeight);

    private void DrawAhead(Sketch sketch, int line, Drawing drawing)
    {
        var top = TopOf(line) + lines[line].Drawing.Height * scale + Gap;
        sketch.Add(drawing.Placed(Edge, top, scale));
        if (lines[line + 1].Bars[0].SectionIndex != lines[line].Bars[0].SectionIndex)
            sketch.Text(TextWrap.Cut(SectionOf(line + 1), Face.Strong, 28, 600), Edge + 48 * scale, top + 7 * scale, Face.Strong, 28, Tint.Quiet);
    }

    private string SectionOf(int line) => timeline.Song.Sections[lines[line].Bars[0].SectionIndex].Name;

    private int LineAt(Moment moment) => lineOfBar[Math.Max(0, moment.Bar)];

    private double TopOf(int line) => Top + (takesTurns && line % 2 == 1 ? tallest + Gap : 0);

    private void Place(Sketch sketch, int line) => sketch.Add(lines[line].Drawing.Placed(Edge, TopOf(line), scale));

    private void DrawThen(Sketch sketch, PlayLine line, PlayLine next, double baseline)
    {
        var left = Edge + 33 * scale;
        sketch.Text("then", left - 20, baseline, Face.Narrow, 28, Tint.Quiet, Align.Right);
        if (next.Bars[0].SectionIndex != line.Bars[0].SectionIndex)
        {
            var name = TextWrap.Cut(timeline.Song.Sections[next.Bars[0].SectionIndex].Name, Face.Strong, 30, 420);
            left += sketch.Text(name, left + 8, baseline, Face.Strong, 30, Tint.Quiet) + 40;
        }
        var width = (Screen.Width - Edge - left) / next.Bars.Length;
        for (var i = 0; i < next.Bars.Length; i++)
            DrawChords(sketch, next.Bars[i].Bar, left + i * width, width, baseline);
    }

    private void DrawChords(Sketch sketch, Bar bar, double left, double width, double baseline)
    {
        sketch.Line(left, baseline - ThenSize + 4, left, baseline + 8, 2);
        var room = (width - 24) / Math.Max(1, bar.Chords.Length);
        for (var i = 0; i < bar.Chords.Length; i++)
            ChordLettering.Fitting(NamedShape.SymbolOf(names?.First(bar.Chords[i].Value.Name) ?? bar.Chords[i].Value.Name), ThenSize, room - 20, 0.3, Tint.Hand).Draw(sketch, left + 16 + i * room, baseline);
    }
}
