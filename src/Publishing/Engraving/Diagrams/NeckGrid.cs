using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Diagrams;

/// <summary>Turns (string, fret) into a place on the page, upright or level.</summary>
/// <param name="Origin">The corner of the grid where the nut meets the left (upright) or top (level) string.</param>
/// <param name="IsMirrored">Upright, the low string stands at the right, as on a left-handed neck.</param>
internal sealed record NeckGrid(NeckDirection Direction, Point Origin, int Strings, int Frets, double Gap, bool IsMirrored = false)
{
    private const double FretOfGap = 1.22;

    public double FretGap => Gap * FretOfGap;

    public double AcrossStrings => (Strings - 1) * Gap;

    public double AlongStrings => Frets * FretGap;

    public bool IsUpright => Direction == NeckDirection.Upright;

    /// <param name="along">Frets from the nut's line; 0 is the line, 0.5 the middle of the first fret.</param>
    public Point At(double stringIndex, double along) =>
        IsUpright
            ? new(Origin.X + (IsMirrored ? Strings - 1 - stringIndex : stringIndex) * Gap, Origin.Y + along * FretGap)
            : new(Origin.X + along * FretGap, Origin.Y + (Strings - 1 - stringIndex) * Gap);

    /// <summary>A bar along a fret from one string to another, with half-thickness and overhang.</summary>
    public Box Across(double fromString, double toString, double along, double half, double over)
    {
        var (a, b) = (At(fromString, along), At(toString, along));
        return IsUpright
            ? new(Math.Min(a.X, b.X) - over, a.Y - half, Math.Max(a.X, b.X) + over, a.Y + half)
            : new(a.X - half, b.Y - over, a.X + half, a.Y + over);
    }
}
