using System.Globalization;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Tabs;

/// <summary>A slur in the narrow room between two strings: a flat crescent.</summary>
internal static class TabSlur
{
    private const double Rise = 2.4, Thickness = 0.75;

    public static void Draw(Sketch sketch, double left, double right, double y)
    {
        if (right - left < 1.5)
            return;
        var bow = Math.Min(3.5, (right - left) / 3);
        var (high, low) = (y - Rise, y - Rise + Thickness);
        sketch.Add(Path($"M{left:0.##} {y:0.##}C{left + bow:0.##} {high:0.##} {right - bow:0.##} {high:0.##} {right:0.##} {y:0.##}",
            $"C{right - bow:0.##} {low:0.##} {left + bow:0.##} {low:0.##} {left:0.##} {y:0.##}Z"));
    }

    /// <summary>The half of a slur that crosses a bar line, high there and low at its note.</summary>
    public static void DrawHalf(Sketch sketch, double high, double low, double y)
    {
        if (Math.Abs(low - high) < 1)
            return;
        var (bow, top) = ((low - high) * 0.6, y - 0.75 * Rise);
        var (near, under) = (low - bow / 3, top + Thickness);
        sketch.Add(Path($"M{high:0.##} {top:0.##}C{high + bow:0.##} {top:0.##} {near:0.##} {y - Rise / 3:0.##} {low:0.##} {y:0.##}",
            $"C{near:0.##} {y - Rise / 3 + Thickness / 2:0.##} {high + bow:0.##} {under:0.##} {high:0.##} {under:0.##}Z"));
    }

    /// <param name="there">The upper edge.</param>
    /// <param name="back">The lower.</param>
    private static PathMark Path(FormattableString there, FormattableString back) =>
        new(there.ToString(CultureInfo.InvariantCulture) + back.ToString(CultureInfo.InvariantCulture), new(Fill: Tint.Ink));
}
