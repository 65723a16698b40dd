namespace Harkbook.Jobs;

/// <summary>What a draft asks a person, as comments at the head of the song file.</summary>
internal static class DraftQuestions
{
    private const string Sign = "; ? ";

    public static string Before(string text, IReadOnlyCollection<string> lines) =>
        lines.Count == 0 ? text : string.Concat(lines.Select(l => $"{Sign}{l}\n")) + "\n" + text;

    /// <summary>A song's text without the questions at its head.</summary>
    public static string Without(string text)
    {
        var end = 0;
        while (text.AsSpan(end).StartsWith(Sign))
            end = text.IndexOf('\n', end) + 1 is var next && next > 0 ? next : text.Length;
        return end == 0 ? text : text[end..].TrimStart('\r', '\n');
    }
}
