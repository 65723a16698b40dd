using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;

namespace Harkbook.Publishing.Engraving.Shelves;

/// <summary>A song's shapes as rows of diagrams on one grid.</summary>
internal static class ShapeShelf
{
    private const double RowGap = 2;

    public static ImmutableArray<Drawing> Engrave(Song song, double width)
    {
        var diagrams = song.Shapes.Select(s => ChordDiagram.Engrave(Subject(song, s), ChordDiagramStyle.Print)).ToArray();
        if (diagrams.Length == 0)
            return [];
        var cell = diagrams.Max(d => d.Width) + 6;
        var across = Math.Max(1, (int)(width / cell));
        return [.. diagrams.Chunk(across).Select(row => Row(row, width, Math.Min(cell, width), across))];
    }

    /// <summary>The diagram subject of a song's shape.</summary>
    public static ChordDiagramSubject Subject(Song song, NamedShape shape) =>
        ChordDiagramSubject.Of(song, shape.Shape, shape.Name, shape.Standing);

    private static Drawing Row(Drawing[] row, double width, double cell, int across)
    {
        var sketch = new Sketch();
        var step = across > 1 ? Math.Min((width - cell) / (across - 1), cell * 1.35) : 0;
        for (var i = 0; i < row.Length; i++)
            sketch.Add(row[i].Placed(i * step + (cell - row[i].Width) / 2, 0));
        return sketch.ToDrawing(width, row.Max(d => d.Height) + RowGap);
    }
}
