using System.Text;

namespace Harkbook.Music.Songs.Reading;

/// <summary>Text in double quotes: inside, only a doubled quote is special. A quote opens only where a word starts.</summary>
internal static class Quoted
{
    /// <summary>The place of the closing quote when one opens here, else -1.</summary>
    public static int Closing(string text, int at, int lineStart, int end)
    {
        if (text[at] != '"' || !(at == lineStart || char.IsWhiteSpace(text[at - 1]) || text[at - 1] is '|' or ',' or '\uFEFF'))
            return -1;
        for (var i = at + 1; i < end; i++)
        {
            if (text[i] != '"')
                continue;
            if (i + 1 < end && text[i + 1] == '"')
                i++;
            else
                return i;
        }
        return -1;
    }

    public static bool Is(string text) => text.Length >= 2 && Closing(text, 0, 0, text.Length) == text.Length - 1;

    /// <summary>What a value means: quoted text without its quotes, else the text itself.</summary>
    public static string Unwrap(string text) => Is(text) ? text[1..^1].Replace("\"\"", "\"") : text;

    public static string Wrap(string text) => new StringBuilder(text).Replace("\"", "\"\"").Insert(0, '"').Append('"').ToString();
}
