using Harkbook.Music.Songs.Reading;
using Harkbook.Music.Songs.Writing;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Editing;

/// <summary>One sign put into a bar as it is written: into its own cell where that holds it plainly, else into the bar split anew.</summary>
internal static class CellEdit
{
    /// <summary>A cell of more pieces reads worse than a bar of other cells.</summary>
    private const int MostPieces = 4;

    /// <param name="sign">What a song file writes there; "." where nothing is to start.</param>
    public static TextEdit Of(BarSyntax bar, LineSyntax line, Meter meter, Beats at, string sign)
    {
        var inCells = at * bar.Cells / meter.BeatsPerBar;
        var cell = bar.Cells == 0 ? [] : bar.Leaves.Where(l => CellOf(l, bar) == inCells.Numerator / inCells.Denominator).ToList();
        if (cell.Count == 0 || Pieces(cell, inCells) is not { } pieces)
            return new(bar.Between, $" {string.Join(' ', Anew(bar, meter, at, sign))} ");
        foreach (var leaf in cell.Where(l => !l.GoesOn))
            pieces[leaf.Numerator % cell.Count * pieces.Length / cell.Count] = leaf.Raw.Text;
        pieces[inCells.Numerator % inCells.Denominator * pieces.Length / inCells.Denominator] = sign;
        return InColumn(line.Text, Span.FromTo(cell[0].Raw.Start, cell[^1].Raw.Span.End), string.Join(',', Fewest(pieces)));
    }

    private static int CellOf(Leaf leaf, BarSyntax bar) => leaf.Numerator / (leaf.Denominator / bar.Cells);

    /// <summary>Empty pieces that hold what stands in the cell and the place; null where that would be too many.</summary>
    private static string[]? Pieces(List<Leaf> cell, Beats inCells)
    {
        var count = Enumerable.Range(1, BarLineReader.MostPieces).FirstOrDefault(n => n % cell.Count == 0 && n % inCells.Denominator == 0);
        return count > 0 && (count <= MostPieces || count == cell.Count) ? [.. Enumerable.Repeat(".", count)] : null;
    }

    private static IEnumerable<string> Fewest(string[] pieces)
    {
        var count = Enumerable.Range(1, pieces.Length).First(n => pieces.Length % n == 0
            && pieces.Index().All(p => p.Item == "." || p.Index % (pieces.Length / n) == 0));
        return pieces.Where((_, i) => i % (pieces.Length / count) == 0);
    }

    private static IEnumerable<string> Anew(BarSyntax bar, Meter meter, Beats at, string sign)
    {
        var others = bar.Leaves.Where(l => !l.GoesOn && l.StartIn(meter) != at && l.StartIn(meter) < meter.BarLength)
            .Select(l => new CellEvent(l.StartIn(meter), l.Raw.Text));
        return BarGrid.Cells(meter, [.. others, .. sign == "." ? [] : new[] { new CellEvent(at, sign) }]);
    }

    /// <summary>What follows keeps its column where there is room.</summary>
    public static TextEdit InColumn(string text, Span at, string put)
    {
        var next = at.End;
        while (next < text.Length && text[next] == ' ')
            next++;
        return next == at.End ? new(at, put) : new(Span.FromTo(at.Start, next), put + new string(' ', Math.Max(1, next - at.Start - put.Length)));
    }
}
