using System.Collections.Immutable;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Shelves;

/// <summary>Borrowed chords by numeral, with the numbers of the songs that have them.</summary>
internal static class BorrowedShelf
{
    private const double Size = 9;

    public static ImmutableArray<Drawing> Engrave(ImmutableArray<BorrowedUse> borrowed, IReadOnlyDictionary<Song, int> numbers, double width) =>
        [.. borrowed.Select(b => Row(b, numbers, width))];

    private static Drawing Row(BorrowedUse borrowed, IReadOnlyDictionary<Song, int> numbers, double width)
    {
        const double Left = 60;
        var sketch = new Sketch();
        sketch.Text(PitchText.InSentence(borrowed.Numeral), 0, 10, Face.NarrowStrong, Size, Tint.Hand);
        var uses = string.Join(", ", borrowed.Uses.GroupBy(u => numbers[u.Song])
            .Select(g => $"{g.Key} ({string.Join(", ", g.Select(u => PitchText.Signed(u.Symbol)))})"));
        sketch.Text(TextWrap.Cut(uses, Face.Text, Size, width - Left), Left, 10, Face.Text, Size);
        return sketch.ToDrawing(width, 13);
    }
}
