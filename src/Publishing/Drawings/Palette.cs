using System.Collections.Immutable;
using System.Globalization;

namespace Harkbook.Publishing.Drawings;

/// <summary>An opaque sRGB colour.</summary>
public readonly record struct Colour(byte Red, byte Green, byte Blue)
{
    /// <summary>Reads "0072B2".</summary>
    public static Colour FromHex(string hex)
    {
        if (hex.Length != 6 || !uint.TryParse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var rgb))
            throw new FormatException($"'{hex}' is not a colour; write six hexadecimal digits, as in 0072B2.");
        return new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);
    }

    /// <summary>Relative luminance, 0 to 1 (WCAG 2.2).</summary>
    public double Luminance => 0.2126 * Linear(Red) + 0.7152 * Linear(Green) + 0.0722 * Linear(Blue);

    /// <summary>Contrast ratio, 1 to 21 (WCAG 2.2).</summary>
    public double Contrast(Colour other)
    {
        var (a, b) = (Luminance, other.Luminance);
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"#{Red:X2}{Green:X2}{Blue:X2}");

    private static double Linear(byte channel)
    {
        var c = channel / 255.0;
        return c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4);
    }
}

/// <summary>
/// A colour for every <see cref="Tint"/>. The hues are those that Okabe and Ito chose to stay apart for colour-blind
/// readers ("Color universal design", 2002, revised 2008), darkened where text on white would lack contrast.
/// Colour is never the only sign: breath has arrows, heard claims have dots.
/// </summary>
public sealed class Palette
{
    private readonly ImmutableArray<Colour> colours;

    private Palette(string name, params ReadOnlySpan<string> hex)
    {
        Name = name;
        colours = [.. hex.ToArray().Select(Colour.FromHex)];
    }

    public string Name { get; }

    public Colour this[Tint tint] => colours[(int)tint];

    /// <summary>For print and bright rooms.</summary>
    public static Palette Paper { get; } =
        new("paper", "FFFFFF", "16181D", "585C64", "85898F", "ECE9E2", "00619A", "8C3F6C", "00704F", "AB4400", "AB4400", "F0E442", "FFFFFF");

    /// <summary>For screens and video: dark and quiet.</summary>
    public static Palette Screen { get; } =
        new("screen", "15181C", "F3F0E8", "B4B8BE", "7C828A", "262B31", "56B4E9", "E2A3C4", "3CC79B", "E69F00", "E69F00", "F0E442", "0B0D0F");
}
