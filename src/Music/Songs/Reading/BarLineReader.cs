using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Where a line of bars starts (null: after the last bar written), and whether it is played over and over.</summary>
internal readonly record struct BarsPlace(int? From, bool Repeats);

/// <summary>Takes a line of bars apart: "from 3 | D . G,D . | … |".</summary>
internal sealed partial class BarLineReader(DiagnosticBag bag)
{
    /// <summary>Behind "strum" and "pick": the bars are played over and over.</summary>
    public const string Throughout = "throughout";

    /// <summary>Cells of one bar, and pieces of one cell, at most. Finer than anyone plays; it keeps fractions of a beat small.</summary>
    public const int MostCells = 64, MostPieces = 16;

    /// <summary>Reads the bars, and where they are played.</summary>
    public (BarsPlace Place, ImmutableArray<BarSyntax> Bars) Read(LineSyntax line, SongPart part)
    {
        var (head, bars) = Take(line, part);
        return (ReadPlace(head, part), bars);
    }

    /// <summary>The words before the first bar line, and the bars.</summary>
    public (ImmutableArray<Token> Head, ImmutableArray<BarSyntax> Bars) Take(LineSyntax line, SongPart part)
    {
        var pieces = Pieces(line);
        ImmutableArray<Token> head = pieces.Count == 1 ? [.. line.Words().Take(3)] : line.Split(pieces[0]);
        // "||" is one bar line drawn twice, so nothing at all between two lines is no bar; a space between them is an empty one.
        var bars = pieces.Skip(1).Where((p, i) => p.Length > 0 && (i + 2 < pieces.Count || line.Split(p).Length > 0)).ToList();
        if (bars.Count == 0)
            bag.Add(DiagnosticCode.NoBars, line.Body.Length > 0 ? line.Body : line.Keyword.Span,
                $"Bars were expected between | behind '{line.Keyword.Text}', as in {line.Keyword.Text} | . . . . |.");
        else if (line.Split(pieces[^1]).Length > 0)
            bag.Add(DiagnosticCode.BarOpen, line.Split(pieces[^1])[^1].Span, "The last bar is not closed.",
                line.IsCommented ? "Put | at its end. A ; starts a comment: text with one in it stands in double quotes." : "Put | at its end.");
        return (head, [.. bars.Select(p => ReadBar(line, p, part))]);
    }

    /// <summary>Reads "throughout", "from 3" or "throughout from 3", or nothing.</summary>
    public BarsPlace ReadPlace(ImmutableArray<Token> head, SongPart part)
    {
        var repeats = head is [{ Text: Throughout }, ..] && part is SongPart.Strum or SongPart.Pick;
        return new(ReadFrom(repeats ? head[1..] : head, part), repeats);
    }

    private int? ReadFrom(ImmutableArray<Token> head, SongPart part)
    {
        if (head.IsEmpty)
            return null;
        if (head[0].Text == "from" && head.Length > 1 && TryReadBar(head[1].Text, out var bar))
        {
            foreach (var extra in head.Skip(2))
                bag.Add(DiagnosticCode.BarText, extra.Span, $"'{extra.Text}' stands before the first bar line; only 'from' and a bar's number may.");
            return bar;
        }
        if (head[0].Text == "from")
            bag.Add(DiagnosticCode.BadFrom, head[^1].Span,
                "After 'from' comes the number of the section's bar (1 is its first) that the line starts with, as in from 3.");
        else
            bag.Add(DiagnosticCode.BarText, head[0].Span, $"'{head[0].Text}' stands before the first bar line.",
                (part is SongPart.Strum ? NearestWord.Suggest(head[0].Text, [Throughout]) : null) ?? "Put | before it if it belongs to the first bar.");
        return null;
    }

    public static bool TryReadBar(string text, out int bar) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out bar) && bar is >= 1 and <= 9999;

    /// <summary>The stretches between bar lines; the first stands before all of them.</summary>
    private static List<Span> Pieces(LineSyntax line)
    {
        var pieces = new List<Span>();
        var start = line.Body.Start;
        for (var i = start; i < line.Body.End;)
        {
            if (line.Text[i] == '|')
            {
                pieces.Add(Span.FromTo(start, i));
                start = i + 1;
            }
            i = Quoted.Closing(line.Text, i, line.Body.Start, line.Body.End) is var close && close > 0 ? close + 1 : i + 1;
        }
        pieces.Add(Span.FromTo(start, line.Body.End));
        return pieces;
    }

    private BarSyntax ReadBar(LineSyntax line, Span between, SongPart part)
    {
        var cells = line.Split(between);
        foreach (var sign in cells.Where(c => c.Text is ":" or "%" || c.Text.StartsWith(':') || (c.Text.EndsWith(':') && c.Text.Length == 1)))
            bag.Add(DiagnosticCode.RepeatSign, sign.Span, "Repeat signs are not used here: every bar that sounds is written.",
                "Write the bars again, or a new section with 'like'.");
        cells = [.. cells.Where(c => c.Text is not (":" or "%"))];
        if (cells.Length > MostCells)
        {
            bag.Add(DiagnosticCode.TooManyCells, between, $"This bar has {cells.Length} cells; {MostCells} at most.", "Is a bar line missing?");
            return new(between, 1, []);
        }
        return new(between, cells.Length, [.. cells.SelectMany((c, i) => ReadCell(c, i, cells.Length, part))]);
    }

    private IEnumerable<Leaf> ReadCell(Token cell, int index, int cells, SongPart part)
    {
        var pieces = SplitAtCommas(cell);
        if (pieces.Count == 1)
            pieces = part switch { SongPart.Strum => SplitStrokes(cell), SongPart.Pick => SplitPicked(cell), _ => pieces };
        if (part == SongPart.Sung)
            pieces = WithItsComma(cell, pieces);
        if (pieces.Count > MostPieces)
        {
            bag.Add(DiagnosticCode.TooManyCells, cell.Span, $"This cell is split into {pieces.Count}; {MostPieces} at most.");
            pieces = pieces[..MostPieces];
        }
        return pieces.Select((p, i) => ReadLeaf(p, index * pieces.Count + i, cells * pieces.Count, part == SongPart.Sung)).ToList();
    }

    /// <summary>Commas inside brackets belong to a chord symbol, as in C7(b9,#11).</summary>
    private static List<Token> SplitAtCommas(Token cell)
    {
        var pieces = new List<Token>();
        var (start, depth) = (0, 0);
        for (var i = 0; i < cell.Text.Length;)
        {
            depth += cell.Text[i] switch { '(' => 1, ')' => -1, _ => 0 };
            if (cell.Text[i] == ',' && (depth <= 0 || !cell.Text.AsSpan(i).Contains(')')))
            {
                pieces.Add(cell.Part(start, i - start));
                start = i + 1;
            }
            i = Quoted.Closing(cell.Text, i, 0, cell.Text.Length) is var close && close > 0 ? close + 1 : i + 1;
        }
        pieces.Add(cell.Part(start, cell.Text.Length - start));
        return pieces;
    }

    /// <summary>Strokes may be run together: "du" is "d,u".</summary>
    private static List<Token> SplitStrokes(Token cell)
    {
        var mark = cell.Text.IndexOf('?');
        var strokes = mark < 0 ? cell.Text : cell.Text[..mark];
        if (strokes.Length < 2 || strokes.AsSpan().ContainsAnyExcept("dux._") || (mark >= 0 && strokes.Length > 1))
            return [cell];
        return [.. Enumerable.Range(0, strokes.Length).Select(i => cell.Part(i, 1))];
    }

    /// <summary>Dots and silences may be run together with a note: ".0" is ".,0", "2.h3" is "2,.,h3".</summary>
    private static List<Token> SplitPicked(Token cell) =>
        cell.Text.AsSpan().ContainsAny('.', '_') && RunOfNotes().Match(cell.Text) is { Success: true } run
            ? [.. run.Groups["piece"].Captures.Select(c => cell.Part(c.Index, c.Length))]
            : [cell];

    /// <summary>A comma at a syllable's end is part of it ("ter,"), since nothing else could stand behind it.</summary>
    private static List<Token> WithItsComma(Token cell, List<Token> pieces) =>
        pieces is [.., { Text: not ("" or "." or "_") } syllable, { Text: "" }] && !Quoted.Is(syllable.Text)
            ? [.. pieces[..^2], cell.Part(syllable.Start - cell.Start, syllable.Text.Length + 1)]
            : pieces;

    private Leaf ReadLeaf(Token raw, int numerator, int denominator, bool isSung)
    {
        if (raw.Text.Length == 0)
        {
            bag.Add(DiagnosticCode.EmptyCell, raw.Span, "A comma splits a cell, and one side of this one is empty.",
                "Write . where what came before goes on, _ for silence; text with a comma in it stands in double quotes.");
            return new(numerator, denominator, raw, new(".", raw.Start), false, null);
        }
        var mark = CellMark.At(raw.Text, isSung);
        var value = mark >= 0 ? raw.Part(0, mark) : raw;
        var quoted = Quoted.Is(value.Text);
        return new(numerator, denominator, raw, quoted ? new(Quoted.Unwrap(value.Text), value.Start) : value, quoted, mark >= 0
            ? ReadMark(raw.Part(mark, raw.Text.Length - mark)) : null);
    }

    private Standing ReadMark(Token mark)
    {
        if (mark.Text.Length == 1)
            return Standing.Heard(null);
        if (StandingReader.TryReadPercent(mark.Text[1..], out var confidence))
            return Standing.Heard(confidence);
        bag.Add(DiagnosticCode.BadMark, mark.Span, "Behind ? comes how sure the ear was, 0 to 100 in percent, or nothing, as in D?62.");
        return Standing.Heard(null);
    }

    [GeneratedRegex(@"^(?<piece>[._]|[hps]?(?:\d+|\*))+$", RegexOptions.CultureInvariant)]
    private static partial Regex RunOfNotes();
}
