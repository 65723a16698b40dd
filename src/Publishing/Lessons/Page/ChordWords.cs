using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Lessons.Page;

/// <summary>A chord's name as plain text with real sharps and flats: "F♯m7♭5/E", a label in brackets.</summary>
internal static class ChordWords
{
    public static string Of(string name)
    {
        var parts = name.Split('@', 2);
        var symbol = string.Join('/', parts[0].Split('/').Select(Signed));
        return parts.Length == 2 ? $"{symbol} ({parts[1]})" : symbol;
    }

    private static string Signed(string part)
    {
        if (part.Length < 2 || part[0] is < 'A' or > 'G')
            return PitchText.Signed(part);
        var signs = part.Skip(1).TakeWhile(c => c is '#' or 'b').Count();
        return part[0] + PitchText.Signed(part.Substring(1, signs)) + PitchText.Signed(part[(1 + signs)..]);
    }
}
