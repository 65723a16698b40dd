using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Writing;

/// <summary>Free text in a song file: bare where it can be, in double quotes where it must. A line end in it becomes a space.</summary>
internal static class PlainText
{
    public static string Write(string text, bool always = false)
    {
        var flat = text.ReplaceLineEndings(" ").Replace('\r', ' ').Replace('\n', ' ');
        return always || flat.Length == 0 || flat != flat.Trim() || flat.AsSpan().ContainsAny(";~\"\uFEFF") ? Quoted.Wrap(flat) : flat;
    }

    /// <summary>What stands in a cell: quoted where it would read as something else.</summary>
    public static string Cell(string text, bool isChord)
    {
        var readsElse = text is "" or "." or "_" or "%" || text[0] == ':' || text == ":"
            || text.AsSpan().ContainsAny("|;~\"\uFEFF") || text.Any(char.IsWhiteSpace)
            || (!isChord && text.AsSpan().ContainsAny(",()"))
            || CellMark.At(text, isSung: !isChord) >= 0;
        return readsElse ? Write(text, always: true) : text;
    }
}
