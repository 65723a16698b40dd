using System.Collections.Immutable;
using System.Text;

namespace Harkbook.Music.Songs.Writing;

/// <summary>A line of bars before its columns are set.</summary>
/// <param name="Bars">Each bar's cells; empty for a heading such as "pick".</param>
internal sealed record TableLine(string Head, ImmutableArray<ImmutableArray<string>> Bars, int FirstColumn, string Tail);

/// <summary>Sets lines of the same bars under one another, bar line under bar line and, where two parts have as many cells, cell under cell.</summary>
internal static class LineTable
{
    public static void Append(StringBuilder text, IReadOnlyList<TableLine> lines, int headWidth)
    {
        var columns = lines.Max(l => l.FirstColumn + l.Bars.Length);
        var set = lines.Select(_ => new List<string>()).ToList();
        for (var column = 0; column < columns; column++)
            SetColumn(lines, column, set);
        var width = set.Max(s => s.Sum(b => b.Length + 3)) + 1;
        for (var i = 0; i < lines.Count; i++)
        {
            var bars = lines[i].Bars.IsEmpty ? "" : "| " + string.Join(" | ", set[i].Skip(lines[i].FirstColumn)) + " |";
            var line = lines[i].Head.PadRight(headWidth) + new string(' ', set[i].Take(lines[i].FirstColumn).Sum(b => b.Length + 3)) + bars;
            text.Append((lines[i].Tail.Length > 0 ? line.PadRight(headWidth + width) + "  " + lines[i].Tail : line).TrimEnd()).Append('\n');
        }
    }

    private static void SetColumn(IReadOnlyList<TableLine> lines, int column, List<List<string>> set)
    {
        var bars = lines.Select(l => column >= l.FirstColumn && column < l.FirstColumn + l.Bars.Length ? l.Bars[column - l.FirstColumn] : []).ToList();
        var texts = bars.Select(bar => string.Join(' ', bar.Select((cell, i) => cell.PadRight(bars.Where(b => b.Length == bar.Length).Max(b => b[i].Length))))
            .TrimEnd()).ToList();
        var width = texts.Max(t => t.Length);
        for (var i = 0; i < lines.Count; i++)
        {
            if (bars[i].Length > 0 || column < lines[i].FirstColumn)
                set[i].Add(texts[i].PadRight(width));
        }
    }
}
