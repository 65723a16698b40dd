using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// The lower half of the screen. Low lines take turns in two places, so that the eye finds the next one before it is
/// played; under taller ones stands as much of the next line as there is room for: all of it, else what the hands do, else
/// its chords and words, or its chords alone. Lines give up some of their size for that, down to where words stay readable.
/// </summary>
internal sealed class SystemShelf
{
    private const double Edge = Screen.Edge;
    private const double Bottom = Screen.Height - 28;
    private const double RoomAlone = 534;
    private const double Gap = 16;
    private const double ThenHeight = 62;
    private const double ThenSize = 44;

    /// <summary>Pixels a point.</summary>
    private const double Best = 3.95;

    private const double LeastSize = 26;
    private const double ChordSize = 14;
    private const double RaisedSize = ChordSize * 0.62; // a chord's raised figures, the smallest that must be read

    private readonly LessonTimeline timeline;
    private readonly CapoNames? names;
    private readonly double room;
    private readonly ImmutableArray<PlaySystem> lines;
    private readonly int[] lineOfBar;
    private readonly double scale;
    private readonly double tallest;
    private readonly bool takesTurns;
    private readonly ImmutableArray<Drawing?> ahead;

    public SystemShelf(LessonTimeline timeline)
    {
        this.timeline = timeline;
        names = CapoNames.Of(timeline.Song);
        // Diagrams with two names need more of the screen.
        room = names is null ? 598 : 556;
        BarRow[] rows = [.. SongRows.Of(timeline.Song, ChordSize, 9.2)];
        var (chords, tab, strum, count, sung) = (rows[0], rows[1], rows[2], rows[3], rows[4]);
        BarRow[] hands = [chords, tab, strum];
        // A label such as the "high" of D@high is lettered at half its chord's size, and its line can give up nothing.
        var least = timeline.Chords.Any(c => c.Value.Name.Contains('@')) ? Best : LeastSize / RaisedSize;
        scale = ScaleOf(Lines(rows, Best), hands, least);
        lines = Lines(rows, scale);
        scale = Math.Min(scale, ScaleOf(lines, hands, least));
        tallest = lines.Select(l => l.Drawing.Height).DefaultIfEmpty(0).Max() * scale;
        takesTurns = 2 * tallest + Gap <= room;
        BarRow[][] choices = [rows, [chords, tab, strum, count, sung], [chords, tab, strum, sung], [chords, tab, strum, count], hands, [chords, count, sung],
            [chords, sung]];
        ahead = takesTurns ? [] : [.. lines.Select((_, i) => Ahead(i, choices))];
        Top = Bottom - (takesTurns ? 2 * tallest + Gap : lines.Select((_, i) => Height(i)).DefaultIfEmpty(0).Max());
        lineOfBar = [.. lines.SelectMany((l, i) => l.Bars.Select(_ => i))];
    }

    /// <summary>Where the shelf begins, in pixels from above.</summary>
    public double Top { get; }

    public void Draw(Sketch sketch, ScreenMoment moment)
    {
        if (lines.IsEmpty)
            return;
        var line = LineAt(moment);
        Place(sketch, line);
        sketch.Fill(new(Edge - 26, TopOf(line) + 4, Edge - 18, TopOf(line) + lines[line].Drawing.Height * scale), Tint.Now, 3);
        if (line + 1 == lines.Length)
            return;
        if (takesTurns)
        {
            Place(sketch, line + 1);
            DrawSection(sketch, line + 1, TopOf(line + 1));
        }
        else if (ahead[line] is { } drawing)
            DrawAhead(sketch, line, drawing);
        else
            DrawThen(sketch, lines[line], lines[line + 1], TopOf(line) + lines[line].Drawing.Height * scale + ThenHeight - 14);
    }

    /// <summary>Where the marker stands.</summary>
    public Box MarkerAt(ScreenMoment moment, double time)
    {
        var line = LineAt(moment);
        var x = Edge + lines[line].MarkerAt(time) * scale;
        return new(x - 2, TopOf(line) + 8, x + 2, TopOf(line) + lines[line].Drawing.Height * scale);
    }

    private ImmutableArray<PlaySystem> Lines(BarRow[] rows, double at) => PlaySystem.Of(timeline, rows, (Screen.Width - 2 * Edge) / at, LeastSize / at);

    /// <summary>The largest scale at which all of the next line stands under each one, else what its hands do; else that of a line alone.</summary>
    private double ScaleOf(ImmutableArray<PlaySystem> lines, BarRow[] hands, double least)
    {
        var tallest = lines.Select(l => l.Drawing.Height).DefaultIfEmpty(1).Max();
        double[] choices = [(room - Gap) / (2 * tallest), Under(next => next.Drawing.Height), Under(next => next.With(hands).Height)];
        return Math.Min(Best, choices.Where(s => s >= least).DefaultIfEmpty(RoomAlone / tallest).First());

        double Under(Func<PlaySystem, double> height) =>
            lines.Zip(lines.Skip(1), (line, next) => (room - Gap) / (line.Drawing.Height + height(next))).DefaultIfEmpty(Best).Min();
    }

    /// <summary>The fullest of some choices of rows that fits under a line.</summary>
    private Drawing? Ahead(int line, BarRow[][] choices)
    {
        var free = (room - Gap) / scale - lines[line].Drawing.Height + 1e-6;
        return line + 1 == lines.Length ? null : choices.Select(lines[line + 1].With).FirstOrDefault(d => d.Height <= free);
    }

    /// <summary>A line's height in pixels with what stands under it.</summary>
    private double Height(int line) => lines[line].Drawing.Height * scale + (ahead[line] is { } next ? Gap + next.Height * scale : ThenHeight);

    private void DrawAhead(Sketch sketch, int line, Drawing drawing)
    {
        var top = TopOf(line) + lines[line].Drawing.Height * scale + Gap;
        sketch.Add(drawing.Placed(Edge, top, scale));
        DrawSection(sketch, line + 1, top);
    }

    /// <summary>Over a line that begins another section stands which.</summary>
    private void DrawSection(Sketch sketch, int line, double top)
    {
        if (lines[line].Bars[0].SectionIndex == lines[line - 1].Bars[0].SectionIndex)
            return;
        var (left, right) = (Edge + lines[line].NumberSpan.Left * scale + 28, Edge + lines[line].NumberSpan.Right * scale - 14);
        sketch.Text(TextWrap.Cut(SectionOf(line), Face.Strong, 28, Math.Min(600, right - left)), left, top + 7 * scale, Face.Strong, 28, Tint.Quiet);
    }

    private string SectionOf(int line) => timeline.Song.Sections[lines[line].Bars[0].SectionIndex].Name;

    private int LineAt(ScreenMoment moment) => lineOfBar[Math.Max(0, moment.Bar)];

    private double TopOf(int line) => Top + (takesTurns && line % 2 == 1 ? tallest + Gap : 0);

    private void Place(Sketch sketch, int line) => sketch.Add(lines[line].Drawing.Placed(Edge, TopOf(line), scale));

    private void DrawThen(Sketch sketch, PlaySystem line, PlaySystem next, double baseline)
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
            ChordLettering.Fitting(NamedShape.SymbolOf(names?.First(bar.Chords[i].Value.Name) ?? bar.Chords[i].Value.Name), ThenSize, room - 20, 0.3,
                Tint.Hand).Draw(sketch, left + 16 + i * room, baseline);
    }
}
