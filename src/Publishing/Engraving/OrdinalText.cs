using System.Globalization;

namespace Harkbook.Publishing.Engraving;

/// <summary>Places in a row as figures.</summary>
public static class OrdinalText
{
    /// <summary>"1st", "2nd", "11th".</summary>
    public static string Of(int n) =>
        n.ToString(CultureInfo.InvariantCulture) + (n % 100 is >= 11 and <= 13 ? "th" : (n % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" });
}
