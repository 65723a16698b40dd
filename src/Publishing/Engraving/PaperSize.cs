namespace Harkbook.Publishing.Engraving;

/// <summary>A sheet of paper in points (1/72 inch).</summary>
public sealed record PaperSize(string Name, double Width, double Height)
{
    /// <summary>ISO 216: 210 by 297 mm.</summary>
    public static PaperSize A4 { get; } = new("A4", 210 / 25.4 * 72, 297 / 25.4 * 72);

    /// <summary>ANSI A: 8.5 by 11 inches.</summary>
    public static PaperSize Letter { get; } = new("letter", 8.5 * 72, 11 * 72);
}
