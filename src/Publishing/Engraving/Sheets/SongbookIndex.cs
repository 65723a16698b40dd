using System.Collections.Immutable;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Shelves;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// A songbook's index to print: the songs with what a player sets up by, every shape with the songs that use it, a shelf a tuning,
/// the strums, and the borrowed chords. Songs are numbered, and the numbers stand for them below.
/// </summary>
public static class SongbookIndex
{
    public const string Title = "Songbook";

    private const double TitleSize = 25;
    private const double HeadSize = 12;
    private const double BetweenParts = 20;
    private static readonly string[] Footer =
        ["Numbers stand for songs. Frets count from the capo; a shape's name is the hand's, and below it stands what it sounds in songs with a capo."];

    public static ImmutableArray<Drawing> Engrave(Songbook book, PaperSize paper)
    {
        if (book.Songs.IsEmpty)
            throw new ArgumentException("A songbook holds one song or more.", nameof(book));
        var flow = new PageFlow(paper, Title, Footer);
        var numbers = book.Songs.Select((song, i) => (song, i))
            .ToDictionary(s => s.song, s => s.i + 1, (IEqualityComparer<Song>)ReferenceEqualityComparer.Instance);
        flow.Add(Head(book, flow.Width), 0);
        flow.AddAll(SongbookTable.Engrave(book.Songs, flow.Width), 12, 0);
        foreach (var shelf in book.Grips.GroupBy(g => g.Tuning))
            AddPart(flow, $"Shapes in {PitchText.Signed(TuningCatalogue.DescribeOnAny(shelf.Key))}", GripShelf.Engrave([.. shelf], numbers, flow.Width));
        AddPart(flow, "Chords as they sound", ChordShelf.Engrave(book, numbers, flow.Width));
        AddPart(flow, "Strums of more than one bar", StrumShelf.Engrave(book.Strums, numbers, flow.Width));
        AddPart(flow, "Borrowed chords", BorrowedShelf.Engrave(book.Borrowed, numbers, flow.Width));
        return flow.Finish();
    }

    private static Drawing Head(Songbook book, double width)
    {
        var sketch = new Sketch();
        sketch.Text(Title, -1, TitleSize * 0.9, Face.Strong, TitleSize);
        var count = book.Songs.Length == 1 ? "1 song" : $"{book.Songs.Length} songs";
        sketch.Text(count, width, TitleSize * 0.9, Face.Text, 10, Tint.Quiet, Align.Right);
        sketch.Fill(Box.At(0, TitleSize * 1.25, width, 1.6), Tint.Ink);
        return sketch.ToDrawing(width, TitleSize * 1.25 + 2);
    }

    private static void AddPart(PageFlow flow, string title, IReadOnlyList<Drawing> rows)
    {
        if (rows.Count == 0)
            return;
        var sketch = new Sketch();
        sketch.Text(title, 0, HeadSize, Face.Strong, HeadSize);
        sketch.Line(0, HeadSize + 5, flow.Width, HeadSize + 5, 0.5, Tint.Faint);
        flow.Add(sketch.ToDrawing(flow.Width, HeadSize + 6), BetweenParts, rows[0].Height + 6);
        flow.AddAll(rows, 6, 3);
    }

    private static void AddAll(this PageFlow flow, IReadOnlyList<Drawing> rows, double first, double next)
    {
        for (var i = 0; i < rows.Count; i++)
            flow.Add(rows[i], i == 0 ? first : next);
    }
}
