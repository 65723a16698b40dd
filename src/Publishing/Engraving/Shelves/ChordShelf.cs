using System.Collections.Immutable;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Shelves;

/// <summary>Every chord of the book by name, in columns read downward, with the numbers of the songs that it sounds in.</summary>
internal static class ChordShelf
{
    private const double Size = 8.6;
    private const double LineHeight = 12.5;
    private const int Columns = 5;
    private const double NameRoom = 46;

    public static ImmutableArray<Drawing> Engrave(Songbook book, IReadOnlyDictionary<Song, int> numbers, double width)
    {
        var entries = Entries(book, numbers).ToArray();
        var rows = (entries.Length + Columns - 1) / Columns;
        return [.. Enumerable.Range(0, rows)
            .Select(row => Row([.. Enumerable.Range(0, Columns).Select(c => entries.ElementAtOrDefault(c * rows + row))], width))];
    }

    private static IEnumerable<(string Symbol, string Songs)> Entries(Songbook book, IReadOnlyDictionary<Song, int> numbers) =>
        from song in book.Songs
        from chord in song.Bars.SelectMany(b => b.Chords).Select(c => c.Value).Where(c => !c.Chord.IsNone).DistinctBy(c => c.Chord)
        group numbers[song] by NamedShape.SymbolOf(chord.Name) into uses
        orderby uses.Key[0], uses.Key.Length > 1 && uses.Key[1] is '#' or 'b', uses.Key.Length, uses.Key
        select (uses.Key, string.Join(", ", uses.Distinct().Order()));

    private static Drawing Row((string? Symbol, string? Songs)[] entries, double width)
    {
        var sketch = new Sketch();
        for (var i = 0; i < entries.Length; i++)
        {
            if (entries[i] is not ({ } symbol, { } songs))
                continue;
            var left = i * width / Columns;
            var end = Math.Max(NameRoom, sketch.Text(PitchText.Signed(symbol), left, 9, Face.NarrowStrong, Size, Tint.Hand) + 6);
            sketch.Text(TextWrap.Cut(songs, Face.Text, Size, width / Columns - end - 4), left + end, 9, Face.Text, Size);
        }
        return sketch.ToDrawing(width, LineHeight);
    }
}
