using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>Writes numerals in plain text.</summary>
internal static class RomanNumeralWriter
{
    private static readonly string[] Numerals = ["I", "II", "III", "IV", "V", "VI", "VII"];

    public static string Write(RomanNumeral numeral, NumeralStyle style)
    {
        var counted = numeral.Target is null ? style : NumeralStyle.AgainstMajor;
        var target = numeral.Target is { } home ? "/" + Head(home, style) : "";
        return (numeral.Sixth is { } sixth ? Named(sixth) : Head(numeral, counted) + Body(numeral)) + target;
    }

    private static string Named(AugmentedSixth sixth) =>
        sixth switch { AugmentedSixth.Italian => "It6", AugmentedSixth.French => "Fr4/3", _ => "Ger6/5" };

    private static string Head(RomanNumeral numeral, NumeralStyle style)
    {
        var (degree, alteration) = numeral.Root.Degree;
        var sign = alteration - style.Plain(degree, numeral.IsDiminished);
        var letters = Numerals[degree - 1];
        return new string(sign < 0 ? 'b' : '#', Math.Abs(sign)) + (numeral.IsMinor ? letters.ToLowerInvariant() : letters);
    }

    private static string Body(RomanNumeral numeral)
    {
        if (!numeral.IsInverted)
            return Kind(numeral);
        var inversion = numeral.Quality.Intervals.FirstOrDefault(i => Above(numeral, i));
        return inversion != default && Figures.Of(numeral.Quality, inversion.Degree.Degree) is { } figures
            ? Figures.Mark(numeral.Quality) + figures
            : $"{Kind(numeral)}/{numeral.Bass.DegreeName}";
    }

    private static bool Above(RomanNumeral numeral, Interval interval) =>
        Floor.Mod(interval.Fifths + numeral.Root.Fifths - numeral.Bass.Fifths, 7 * 12) == 0;

    /// <summary>The chord symbol's suffix, less what the numeral's case says already.</summary>
    private static string Kind(RomanNumeral numeral)
    {
        var suffix = ChordSymbol.Suffix(numeral.Quality);
        if (suffix.StartsWith("m7b5", StringComparison.Ordinal))
            return "ø7" + suffix[4..];
        if (suffix.StartsWith("dim", StringComparison.Ordinal))
            return "o" + suffix[3..];
        if (suffix.StartsWith("aug", StringComparison.Ordinal))
            return "+" + suffix[3..];
        if (numeral.IsMinor && suffix.StartsWith('m') && !suffix.StartsWith("maj", StringComparison.Ordinal))
            suffix = suffix[1..] is "(maj7)" ? "maj7" : suffix[1..];
        return suffix.StartsWith("6/9", StringComparison.Ordinal) ? "add6add9" + suffix[3..]
            : suffix.StartsWith('6') ? "add6" + suffix[1..]
            : suffix;
    }
}
