using System.Text;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs.Editing;

/// <summary>A stretch of the file and what stands there afterwards.</summary>
internal readonly record struct TextEdit(Span At, string Put)
{
    public static TextEdit Insert(int at, string put) => new(new(at, 0), put);

    /// <summary>Makes edits that don't overlap; all places are those of the text before.</summary>
    public static string Apply(string text, IEnumerable<TextEdit> edits)
    {
        var result = new StringBuilder(text);
        foreach (var edit in edits.OrderByDescending(e => e.At.Start).ThenByDescending(e => e.At.Length))
            result.Remove(edit.At.Start, edit.At.Length).Insert(edit.At.Start, edit.Put);
        return result.ToString();
    }
}
