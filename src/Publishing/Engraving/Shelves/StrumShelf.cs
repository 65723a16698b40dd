using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Rows;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving.Shelves;

/// <summary>Bars of strokes, two abreast, with the numbers of the songs that strum so. Strokes of a single bar are left out.</summary>
internal static class StrumShelf
{
    private const double Height = 27;
    private const double BarLeft = 32;
    private const double BarWidth = 126;
    private const double Between = 14;
    private const double Size = 8.4;

    public static ImmutableArray<Drawing> Engrave(ImmutableArray<StrumPattern> strums, IReadOnlyDictionary<Song, int> numbers, double width) =>
        [.. strums.Where(s => s.Bars > 1).Select(s => Cell(s, numbers, (width - Between) / 2)).Chunk(2).Select(row => Row(row, width))];

    private static Drawing Row(Drawing[] row, double width)
    {
        var sketch = new Sketch();
        for (var i = 0; i < row.Length; i++)
            sketch.Add(row[i].Placed(i * (row[i].Width + Between), 0));
        return sketch.ToDrawing(width, Height);
    }

    private static Drawing Cell(StrumPattern pattern, IReadOnlyDictionary<Song, int> numbers, double width)
    {
        var sketch = new Sketch();
        sketch.Text(pattern.Meter.ToString(), 0, 11.5, Face.NarrowStrong, 8.6, Tint.Quiet);
        foreach (var edge in new[] { BarLeft - 7, BarLeft + BarWidth - 3 })
            sketch.Line(edge, 1, edge, 17, 0.7, Tint.Line);
        for (var beat = 0; beat < pattern.Meter.BeatsPerBar; beat++)
            sketch.Text((beat + 1).ToString(CultureInfo.InvariantCulture), X(pattern, Beats.Whole(beat)), 22, Face.Narrow, 6.4, Tint.Quiet, Align.Centre);
        foreach (var (at, stroke) in pattern.Strokes)
            StrumRow.DrawStroke(sketch, stroke, X(pattern, at), 3, 10);
        var left = BarLeft + BarWidth + 6;
        var songs = string.Join(", ", pattern.Uses.Select(u => numbers[u.Song]).Order());
        sketch.Text(TextWrap.Cut(songs, Face.NarrowStrong, Size, width - left), left, 9, Face.NarrowStrong, Size);
        sketch.Text($"{pattern.Bars} bars", left, 18, Face.Text, 6.8, Tint.Quiet);
        return sketch.ToDrawing(width, Height);
    }

    private static double X(StrumPattern pattern, Beats at) => BarLeft + at.Value / pattern.Meter.BarLength.Value * BarWidth;
}
