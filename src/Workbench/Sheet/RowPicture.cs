using System.Collections.Immutable;
using System.Globalization;

namespace Harkbook.Workbench.Sheet;

/// <summary>A row of the open sheet: the engraving over the record at the same bars.</summary>
/// <param name="Section">0 for the song's first.</param>
/// <param name="Engraving">SVG marks.</param>
/// <param name="Strip">SVG marks, from the strip's own top; empty where no recording was heard.</param>
public sealed record RowPicture(int Index, int Section, double Width, double Height, string Engraving, string Strip, double StripHeight,
    ImmutableArray<BarPicture> Bars, RowAxis Axis)
{
    public const double Gap = 5;

    public double StripTop => Height + Gap;

    public double FullHeight => StripHeight > 0 ? StripTop + StripHeight : Height;

    public int First => Bars[0].Number;

    public int Last => Bars[^1].Number;

    /// <summary>Times and places of the row's beats for the script that moves the line of the moment.</summary>
    public string Beats => string.Join(' ', Axis.Points.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Time:0.###},{p.X:0.##}")));
}
