using System.Text;

namespace Harkbook.App.Reports;

/// <summary>Breaks plain text into lines.</summary>
internal static class Wrapping
{
    /// <summary>Words a space apart on lines of at most so many characters; a longer word stands alone on its line.</summary>
    /// <param name="lead">What the first line starts with, and <paramref name="indent"/> each further one.</param>
    public static IEnumerable<string> Lines(IEnumerable<string> words, int width, string lead = "", string indent = "")
    {
        var line = new StringBuilder(lead);
        var isFresh = true;
        foreach (var word in words)
        {
            if (!isFresh && line.Length + 1 + word.Length > width)
            {
                yield return line.ToString();
                line.Clear().Append(indent);
                isFresh = true;
            }
            line.Append(isFresh ? "" : " ").Append(word);
            isFresh = false;
        }
        yield return line.ToString();
    }
}
