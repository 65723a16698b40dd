using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>Breaks text into lines that fit a width.</summary>
public static class TextWrap
{
    /// <summary>Breaks between words; a word wider than the line is broken between characters.</summary>
    public static ImmutableArray<string> Lines(string text, Face face, double size, double width)
    {
        var lines = ImmutableArray.CreateBuilder<string>();
        var line = "";
        foreach (var word in text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).SelectMany(w => Pieces(w, face, size, width)))
        {
            var longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && FontBook.Width(longer, face, size) > width)
            {
                lines.Add(line);
                longer = word;
            }
            line = longer;
        }
        if (line.Length > 0)
            lines.Add(line);
        return lines.ToImmutable();
    }

    /// <summary>The text, or as much of it as fits before an ellipsis.</summary>
    public static string Cut(string text, Face face, double size, double width)
    {
        if (FontBook.Width(text, face, size) <= width)
            return text;
        var elements = Elements(text);
        for (var kept = elements.Length - 1; kept > 0; kept--)
        {
            var cut = string.Concat(elements.Take(kept)).TrimEnd() + "…";
            if (FontBook.Width(cut, face, size) <= width)
                return cut;
        }
        return "…";
    }

    private static IEnumerable<string> Pieces(string word, Face face, double size, double width)
    {
        if (FontBook.Width(word, face, size) <= width)
            return [word];
        var pieces = new List<string>();
        var piece = "";
        foreach (var element in Elements(word))
        {
            if (piece.Length > 0 && FontBook.Width(piece + element, face, size) > width)
            {
                pieces.Add(piece);
                piece = "";
            }
            piece += element;
        }
        pieces.Add(piece);
        return pieces;
    }

    private static string[] Elements(string text)
    {
        var elements = StringInfo.GetTextElementEnumerator(text);
        var result = new List<string>();
        while (elements.MoveNext())
            result.Add(elements.GetTextElement());
        return [.. result];
    }
}
