namespace Harkbook.Music.Songs;

/// <summary>
/// What an edit changed in a song file, line by line: the lines that went with a "-", those that came with a "+", each behind its number
/// before or after.
/// </summary>
public static class TextChanges
{
    public static IEnumerable<string> Between(string before, string after)
    {
        var (old, now) = (Lines(before), Lines(after));
        for (int i = 0, j = 0; i < old.Length || j < now.Length; i++, j++)
        {
            var (gone, come) = ToNextCommon(old.AsSpan(i), now.AsSpan(j));
            for (; gone > 0; gone--, i++)
                yield return $"{i + 1,4} - {old[i]}";
            for (; come > 0; come--, j++)
                yield return $"{j + 1,4} + {now[j]}";
        }
    }

    private static string[] Lines(string text) => text.ReplaceLineEndings("\n").Split('\n');

    /// <summary>How many lines on each side stand before the nearest that is the same on both; all of them where there is none.</summary>
    private static (int Gone, int Come) ToNextCommon(ReadOnlySpan<string> old, ReadOnlySpan<string> now)
    {
        for (var both = 0; both < old.Length + now.Length; both++)
        {
            for (var gone = Math.Max(0, both - now.Length + 1); gone <= both && gone < old.Length; gone++)
            {
                if (old[gone] == now[both - gone])
                    return (gone, both - gone);
            }
        }
        return (old.Length, now.Length);
    }
}
