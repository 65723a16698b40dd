using System.Collections.Immutable;

namespace Harkbook.Music.Songs.Reading;

/// <summary>One line taken apart: its first word, the rest, the standings behind "~", and the comment left out.</summary>
/// <param name="Whole">The line without its line end.</param>
/// <param name="Body">What stands between the first word and the standings, trimmed.</param>
/// <param name="Standings">One span for each "~ …", tilde included, trimmed.</param>
/// <param name="CodeEnd">Where a comment or trailing space starts.</param>
internal sealed record LineSyntax(string Text, Span Whole, Token Keyword, Span Body, ImmutableArray<Span> Standings, int CodeEnd)
{
    public bool IsBlank => Keyword.Text.Length == 0 && Body.Length == 0 && Standings.IsEmpty;

    public string BodyText => Body.In(Text);

    public bool IsCommented => Text.AsSpan(CodeEnd, Whole.End - CodeEnd).TrimStart().StartsWith(';');

    public static LineSyntax Of(string text, Span line)
    {
        var (tildes, codeEnd) = Marks(text, line);
        var bodyEnd = TrimEnd(text, line.Start, tildes.IsEmpty ? codeEnd : tildes[0]);
        var start = SkipSpace(text, line.Start, bodyEnd);
        var wordEnd = start;
        while (wordEnd < bodyEnd && !char.IsWhiteSpace(text[wordEnd]) && text[wordEnd] != '|')
            wordEnd++;
        var standings = tildes.Select((at, i) => Span.FromTo(at, TrimEnd(text, at, i + 1 < tildes.Length ? tildes[i + 1] : codeEnd)));
        var body = SkipSpace(text, wordEnd, bodyEnd);
        return new(text, line, new(text[start..wordEnd], start), Span.FromTo(body, bodyEnd), [.. standings], codeEnd);
    }

    /// <summary>The words of the body; quoted text is one word.</summary>
    public ImmutableArray<Token> Words() => Split(Body);

    public ImmutableArray<Token> Split(Span span)
    {
        var words = ImmutableArray.CreateBuilder<Token>();
        for (var i = SkipSpace(Text, span.Start, span.End); i < span.End; i = SkipSpace(Text, i, span.End))
        {
            var start = i;
            while (i < span.End && !char.IsWhiteSpace(Text[i]))
                i = Quoted.Closing(Text, i, span.Start, span.End) is var close && close > 0 ? close + 1 : i + 1;
            words.Add(new(Text[start..i], start));
        }
        return words.ToImmutable();
    }

    private static (ImmutableArray<int> Tildes, int CodeEnd) Marks(string text, Span line)
    {
        var tildes = ImmutableArray.CreateBuilder<int>();
        var i = line.Start;
        while (i < line.End && text[i] != ';')
        {
            if (text[i] == '~' && (i == line.Start || char.IsWhiteSpace(text[i - 1])))
                tildes.Add(i);
            i = Quoted.Closing(text, i, line.Start, line.End) is var close && close > 0 ? close + 1 : i + 1;
        }
        return (tildes.ToImmutable(), TrimEnd(text, line.Start, i));
    }

    /// <summary>A byte-order mark counts as space: some editors put one at the start of a file.</summary>
    private static int SkipSpace(string text, int from, int end)
    {
        while (from < end && (char.IsWhiteSpace(text[from]) || text[from] == '\uFEFF'))
            from++;
        return from;
    }

    private static int TrimEnd(string text, int start, int end)
    {
        while (end > start && char.IsWhiteSpace(text[end - 1]))
            end--;
        return end;
    }
}
