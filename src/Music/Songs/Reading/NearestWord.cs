namespace Harkbook.Music.Songs.Reading;

/// <summary>
/// The word that was probably meant: by the optimal string alignment distance (Damerau 1964: letters left out, put in, changed or swapped),
/// case aside, and no further off than a third of the longer word.
/// </summary>
internal static class NearestWord
{
    public static string? To(string word, IEnumerable<string> known)
    {
        var best = known
            .Select(k => (Word: k, Distance: Distance(word.ToLowerInvariant(), k.ToLowerInvariant()), Allowed: Allowed(Math.Max(word.Length, k.Length))))
            .Where(k => word.Length <= 40 && k.Distance <= k.Allowed)
            .OrderBy(k => k.Distance)
            .FirstOrDefault();
        return best.Word;
    }

    /// <summary>"Did you mean 'tuning'?", or nothing when no known word is near.</summary>
    public static string? Suggest(string word, IEnumerable<string> known) => Ask(To(word, known));

    public static string? Ask(string? near) => near is null ? null : $"Did you mean '{near}'?";

    /// <summary>In words of one or two letters every other word is one letter off, so only case may differ there.</summary>
    private static int Allowed(int length) => length < 3 ? 0 : Math.Max(1, length / 3);

    private static int Distance(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 20)
            return int.MaxValue;
        var d = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
            d[i, 0] = i;
        for (var j = 0; j <= b.Length; j++)
            d[0, j] = j;
        for (var i = 1; i <= a.Length; i++)
        {
            for (var j = 1; j <= b.Length; j++)
            {
                d[i, j] = Math.Min(Math.Min(d[i - 1, j], d[i, j - 1]) + 1, d[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                    d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
            }
        }
        return d[a.Length, b.Length];
    }
}
