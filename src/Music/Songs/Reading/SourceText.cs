using System.Collections.Immutable;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A stretch of a song file's text.</summary>
internal readonly record struct Span(int Start, int Length)
{
    public int End => Start + Length;

    public static Span FromTo(int start, int end) => new(start, Math.Max(0, end - start));

    public string In(string text) => text.Substring(Start, Length);
}

/// <summary>A word as it stands in the file.</summary>
internal readonly record struct Token(string Text, int Start)
{
    public Span Span => new(Start, Text.Length);

    public Token Part(int from, int length) => new(Text.Substring(from, length), Start + from);
}

/// <summary>The text with its line starts. Lines end at LF, CRLF or CR.</summary>
internal sealed class SourceText
{
    private readonly ImmutableArray<int> starts;

    public SourceText(string text)
    {
        Text = text;
        var lines = ImmutableArray.CreateBuilder<Span>();
        var begins = ImmutableArray.CreateBuilder<int>();
        for (var start = 0; start <= text.Length;)
        {
            var end = text.AsSpan(start).IndexOfAny('\r', '\n');
            end = end < 0 ? text.Length : start + end;
            lines.Add(Span.FromTo(start, end));
            begins.Add(start);
            start = end + (end + 1 < text.Length && text[end] == '\r' && text[end + 1] == '\n' ? 2 : 1);
        }
        Lines = lines.ToImmutable();
        starts = begins.ToImmutable();
    }

    public string Text { get; }

    /// <summary>Lines without their line ends; never empty.</summary>
    public ImmutableArray<Span> Lines { get; }

    /// <summary>How this file ends its lines: as its first line does.</summary>
    public string NewLine => Text.IndexOf('\n') is var at && at > 0 && Text[at - 1] == '\r' ? "\r\n" : "\n";

    public (int Line, int Column) Locate(int position)
    {
        var index = starts.BinarySearch(position);
        var line = index >= 0 ? index : ~index - 1;
        return (line + 1, position - starts[line] + 1);
    }
}
