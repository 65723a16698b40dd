using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>A sheet's head: the title, who plays, and the facts that a player sets up by.</summary>
internal static class SongHead
{
    private const double TitleSize = 25;
    private const double LabelSize = 7;
    private const double ValueSize = 10.2;
    private const double CellGap = 20;
    private const double CellHeight = 30;

    public static Drawing Engrave(Song song, double width)
    {
        var sketch = new Sketch();
        var y = DrawTitle(sketch, song, width);
        sketch.Fill(Box.At(0, y + 7, width, 1.6), Tint.Ink);
        y = DrawFacts(sketch, song, width, y + 21);
        return sketch.ToDrawing(width, y);
    }

    private static double DrawTitle(Sketch sketch, Song song, double width)
    {
        var y = 0.0;
        foreach (var line in TextWrap.Lines(song.Title, Face.Strong, TitleSize, width))
        {
            y += TitleSize * 1.1;
            sketch.Text(line, -1, y - TitleSize * 0.2, Face.Strong, TitleSize);
        }
        var under = string.Join("  ·  ", new[] { song.Player, Recording(song) }.Where(t => !string.IsNullOrEmpty(t)));
        foreach (var line in TextWrap.Lines(under, Face.Text, 10, width))
        {
            y += 13.5;
            sketch.Text(line, 0, y - 1.5, Face.Text, 10, Tint.Quiet);
        }
        return y;
    }

    private static string? Recording(Song song) =>
        song.Recording is { } r ? FileName(r.Path) + (r.Length is { } length ? $" ({ClockText.Of(length)})" : "") : null;

    private static double DrawFacts(Sketch sketch, Song song, double width, double top)
    {
        var cells = SongFacts.Of(song).Select(f => Cell.Of(f, width)).ToArray();
        foreach (var row in Rows(cells, EvenWidth(cells, width)))
        {
            var x = 0.0;
            foreach (var cell in row)
            {
                DrawFact(sketch, cell.Fact, cell.Lines, x, top);
                x += cell.Width + CellGap;
            }
            top += CellHeight + (row.Max(c => c.Lines.Length) - 1) * ValueSize * 1.25;
        }
        return top - 8;
    }

    /// <summary>The narrowest measure that needs no more rows than the whole width, so that no fact is left alone on a row.</summary>
    private static double EvenWidth(Cell[] cells, double width)
    {
        var rows = Rows(cells, width).Count;
        var even = width;
        while (even > width / 3 && Rows(cells, even - 4).Count == rows)
            even -= 4;
        return even;
    }

    private static List<List<Cell>> Rows(Cell[] cells, double width)
    {
        var rows = new List<List<Cell>>();
        var x = double.MaxValue;
        foreach (var cell in cells)
        {
            if (x + cell.Width > width)
            {
                rows.Add([]);
                x = 0;
            }
            rows[^1].Add(cell);
            x += cell.Width + CellGap;
        }
        return rows;
    }

    private sealed record Cell(PrintedFact Fact, ImmutableArray<string> Lines, double Width)
    {
        public static Cell Of(PrintedFact fact, double width)
        {
            var lines = TextWrap.Lines(fact.Value, Face.Strong, ValueSize, width);
            return new(fact, lines, Math.Max(lines.Max(l => FontBook.Width(l, Face.Strong, ValueSize)), LabelWidth(fact)));
        }
    }

    private static void DrawFact(Sketch sketch, PrintedFact fact, IReadOnlyList<string> lines, double x, double y)
    {
        var end = x + sketch.Text(fact.Label, x, y, Face.Text, LabelSize, Tint.Quiet);
        sketch.Text(fact.Doubt, end + 4, y, Face.Strong, LabelSize, Tint.Heard);
        for (var i = 0; i < lines.Count; i++)
        {
            var baseline = y + 12.5 + i * ValueSize * 1.25;
            var width = sketch.Text(lines[i], x, baseline, Face.Strong, ValueSize);
            if (fact.Doubt.Length > 0)
                sketch.Dots(x, x + width, baseline + 3.1, 0.9);
        }
    }

    private static double LabelWidth(PrintedFact fact) =>
        FontBook.Width(fact.Label, Face.Text, LabelSize) + (fact.Doubt.Length > 0 ? 4 + FontBook.Width(fact.Doubt, Face.Strong, LabelSize) : 0);

    /// <summary>Readers of a sheet need the recording's name, not the folders of whoever made it.</summary>
    private static string FileName(string path) => path[(path.LastIndexOfAny(['/', '\\']) + 1)..];
}
