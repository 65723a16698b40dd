namespace Harkbook.Publishing.Lessons;

/// <summary>What a chord is called in the names of files.</summary>
public static class ChordFiles
{
    /// <summary>"G/B@low" is "G-over-B-low"; sharps stay, since file systems take them.</summary>
    public static string NameOf(string chord) =>
        string.Concat(chord.Replace("/", "-over-", StringComparison.Ordinal).Replace("@", "-", StringComparison.Ordinal)
            .Select(c => char.IsLetterOrDigit(c) || c is '-' or '#' or '+' ? c : '_'));
}
