namespace Harkbook.Workbench.Desk;

/// <summary>The one stretch in which two texts differ: where it starts, what went there and what came.</summary>
public readonly record struct TextPatch(int At, string Gone, string Put)
{
    public static TextPatch Between(string before, string after)
    {
        var start = before.AsSpan().CommonPrefixLength(after);
        var (end, least) = (0, Math.Min(before.Length, after.Length) - start);
        while (end < least && before[^(end + 1)] == after[^(end + 1)])
            end++;
        return new(start, before[start..(before.Length - end)], after[start..(after.Length - end)]);
    }

    public TextPatch Reversed() => new(At, Put, Gone);

    /// <summary>The text with the patch made; null where what should go doesn't stand there.</summary>
    public string? Onto(string text) =>
        At >= 0 && At + Gone.Length <= text.Length && text.AsSpan(At, Gone.Length).SequenceEqual(Gone)
            ? string.Concat(text.AsSpan(0, At), Put, text.AsSpan(At + Gone.Length)) : null;
}
