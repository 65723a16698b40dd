using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Songs.Reading;

/// <summary>A place in a bar as players count it: "1" is the bar's start, "2+1/2" half a beat past the second beat.</summary>
internal static class BeatText
{
    public static bool TryRead(string text, out Beats place)
    {
        place = default;
        var plus = text.Split('+');
        if (plus.Length > 2 || !TryNumber(plus[0], 99, out var beat))
            return false;
        place = Beats.Whole(beat - 1);
        if (plus.Length == 1)
            return true;
        var fraction = plus[1].Split('/');
        if (fraction.Length != 2 || !TryNumber(fraction[0], 9999, out var over) || !TryNumber(fraction[1], 9999, out var under) || over >= under)
            return false;
        place += Beats.Fraction(over, under);
        return true;
    }

    public static string Write(Beats place)
    {
        var whole = (int)Math.Floor(place.Value);
        var rest = place - Beats.Whole(whole);
        return rest == Beats.Zero ? $"{whole + 1}" : $"{whole + 1}+{rest}";
    }

    private static bool TryNumber(string text, int most, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value) && value >= 1 && value <= most;
}
