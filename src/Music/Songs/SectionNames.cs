using System.Collections.Immutable;
using Harkbook.Music.Songs.Reading;

namespace Harkbook.Music.Songs;

/// <summary>Sections named from memory: "verse" or "v1" for Verse 1.</summary>
public static class SectionNames
{
    /// <summary>
    /// The names that may be meant, in the order given, each once: the very name (case and spaces aside); else those that start with the
    /// words given; else those that hold them in order; else those whose words begin as given; else the nearest in spelling. None where nothing is near.
    /// </summary>
    public static ImmutableArray<string> Meant(string given, IEnumerable<string> names)
    {
        string[] known = [.. names.Distinct()];
        var words = Words(given);
        Func<string, bool>[] ways =
        [
            name => string.Equals(Plain(name), Plain(given), StringComparison.OrdinalIgnoreCase),
            name => words.Length > 0 && Words(name).Take(words.Length).SequenceEqual(words),
            name => words.Length > 0 && InOrder(words, Words(name), (typed, word) => typed == word),
            name => words.Length > 0 && InOrder(words, Words(name), Begins),
        ];
        return ways.Select(way => known.Where(way).ToImmutableArray()).FirstOrDefault(found => found.Length > 0, Spelt(given, known));
    }

    /// <summary>Names spelt almost so; a name's number counts only where one is given.</summary>
    private static ImmutableArray<string> Spelt(string given, string[] known)
    {
        string Compared(string name) => given.Any(char.IsDigit) ? name : string.Join(' ', Words(name).Where(w => !char.IsDigit(w[0])));
        var near = NearestWord.To(given.Trim(), known.Select(Compared).Where(n => n.Length > 0));
        return near is null ? [] : [.. known.Where(name => Compared(name) == near)];
    }

    private static bool Begins(string typed, string word) => char.IsDigit(typed[0]) ? typed == word : word.StartsWith(typed, StringComparison.Ordinal);

    private static bool InOrder(string[] typed, string[] words, Func<string, string, bool> fits)
    {
        var next = 0;
        foreach (var word in words)
            next += next < typed.Length && fits(typed[next], word) ? 1 : 0;
        return next == typed.Length;
    }

    private static string Plain(string name) => string.Join(' ', name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>Runs of letters and runs of digits, in small letters: "v1" is two.</summary>
    private static string[] Words(string text)
    {
        var words = new List<string>();
        for (var i = 0; i < text.Length; i++)
        {
            if (!char.IsLetterOrDigit(text[i]))
                continue;
            if (i > 0 && char.IsLetterOrDigit(text[i - 1]) && char.IsDigit(text[i - 1]) == char.IsDigit(text[i]))
                words[^1] += char.ToLowerInvariant(text[i]);
            else
                words.Add(char.ToLowerInvariant(text[i]).ToString());
        }
        return [.. words];
    }
}
