using System.Collections.Immutable;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Diagrams;

namespace Harkbook.Publishing.Engraving.Shelves;

/// <summary>Shapes of one tuning as small diagrams, the numbers of the songs that use each beneath it.</summary>
internal static class GripShelf
{
    private const double NumbersSize = 7.4;
    private const double NumbersRoom = 13;
    private const double LineHeight = 9;
    private static readonly ChordDiagramStyle Small = new(7.4, Foot: StringFoot.Nothing, NameCapo: false);

    public static ImmutableArray<Drawing> Engrave(ImmutableArray<Grip> grips, IReadOnlyDictionary<Song, int> numbers, double width)
    {
        var cells = grips.Select(g => Cell(g, numbers)).ToArray();
        var cell = cells.Max(c => c.Width) + 7;
        return [.. cells.Chunk(Math.Max(1, (int)(width / cell))).Select(row => Row(row, cell, width))];
    }

    private static Drawing Cell(Grip grip, IReadOnlyDictionary<Song, int> numbers)
    {
        var use = grip.Uses.MaxBy(u => u.Bars.Length)!;
        // The capo is the song's, not the grip's: the name is the hand's in the song that uses the shape most, others are told beneath.
        var name = HandsName(use);
        var diagram = ChordDiagram.Engrave(new(grip.Shape, name, grip.Tuning, Capo.None, Standing.Decided, use.Song.Key.Value.Centre), Small);
        var songs = grip.Uses.OrderBy(u => numbers[u.Song]).GroupBy(u => Sounding(u, name)).OrderBy(g => g.Key.Length > 0)
            .Select(g => string.Join(", ", g.Select(u => numbers[u.Song]).Distinct()) + g.Key).ToArray();
        var width = Math.Max(diagram.Width, 58);
        var sketch = new Sketch();
        sketch.Add(diagram.Placed((width - diagram.Width) / 2, 0));
        for (var i = 0; i < songs.Length; i++)
            sketch.Text(TextWrap.Cut(songs[i], Face.NarrowStrong, NumbersSize, width + 6), width / 2, diagram.Height + 7 + i * LineHeight, Face.NarrowStrong,
                NumbersSize, Tint.Quiet, Align.Centre);
        return sketch.ToDrawing(width, diagram.Height + NumbersRoom + (songs.Length - 1) * LineHeight);
    }

    private static string HandsName(ShapeUse use) => CapoNames.Of(use.Song)?.Hand(use.Symbol) ?? use.Symbol;

    /// <summary>What stands behind the songs' numbers: " capo 1: Bb" where another chord sounds than the diagram's name says, " as Eb5"
    /// where the hand's name is another.</summary>
    private static string Sounding(ShapeUse use, string name)
    {
        var capo = CapoNames.Of(use.Song) is null ? "" : $" capo {use.Song.Capo.Value.Fret}: {PitchText.Signed(use.Symbol)}";
        return capo.Length > 0 || use.Symbol == name ? capo : $" as {PitchText.Signed(use.Symbol)}";
    }

    private static Drawing Row(Drawing[] row, double cell, double width)
    {
        var sketch = new Sketch();
        for (var i = 0; i < row.Length; i++)
            sketch.Add(row[i].Placed(i * cell + (cell - row[i].Width) / 2 - 4, 0));
        return sketch.ToDrawing(width, row.Max(d => d.Height));
    }
}
