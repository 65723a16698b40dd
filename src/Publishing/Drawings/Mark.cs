using System.Collections.Immutable;
using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>One thing drawn. Places and widths are points in the drawing (or group) that holds it.</summary>
public abstract record Mark
{
    /// <summary>The box that its ink fills, line widths included.</summary>
    public abstract Box Bounds { get; }
}

/// <summary>How a shape is filled and outlined; null leaves either out. Opacity (0–1) counts for both.</summary>
/// <param name="Dash">Lengths of stroke and gap in turn; empty for a whole line.</param>
public sealed record Pen(Tint? Fill = null, Tint? Stroke = null, double Width = 0, ImmutableArray<double> Dash = default, double Opacity = 1,
    bool RoundEnds = false)
{
    internal double Reach => Stroke is null ? 0 : Width / 2;
}

/// <summary>A straight line.</summary>
public sealed record LineMark(Point From, Point To, Pen Pen) : Mark
{
    public override Box Bounds
    {
        get
        {
            var spine = new Box(Math.Min(From.X, To.X), Math.Min(From.Y, To.Y), Math.Max(From.X, To.X), Math.Max(From.Y, To.Y));
            var length = Math.Sqrt(spine.Width * spine.Width + spine.Height * spine.Height);
            if (Pen.RoundEnds || length == 0)
                return spine.Grown(Pen.Reach);
            var (x, y) = (Pen.Reach * spine.Height / length, Pen.Reach * spine.Width / length);
            return new(spine.Left - x, spine.Top - y, spine.Right + x, spine.Bottom + y);
        }
    }
}

/// <summary>A rectangle with corners rounded by a radius (0 for square).</summary>
public sealed record RectMark(Box Box, double Corner, Pen Pen) : Mark
{
    public override Box Bounds => Box.Grown(Pen.Reach);
}

/// <summary>A circle.</summary>
public sealed record CircleMark(Point Centre, double Radius, Pen Pen) : Mark
{
    public override Box Bounds => new Box(Centre.X, Centre.Y, Centre.X, Centre.Y).Grown(Radius + Pen.Reach);
}

/// <summary>Any outline, in the path syntax of SVG (absolute or relative), from the drawing's corner.</summary>
public sealed record PathMark(string Data, Pen Pen) : Mark
{
    public override Box Bounds
    {
        get
        {
            using var path = SKPath.ParseSvgPathData(Data) ?? throw new FormatException($"'{Data}' is not SVG path data.");
            var b = path.TightBounds;
            return new Box(b.Left, b.Top, b.Right, b.Bottom).Grown(Pen.Reach);
        }
    }
}

/// <summary>One line of text from its left end on a baseline.</summary>
/// <param name="Says">
/// What a search or a copy finds in its place: null for the text itself, "" for nothing (another mark says it).
/// So "F♯m7", set in four marks, is found as F#m7.
/// </param>
public sealed record TextMark(string Text, Point At, Face Face, double Size, Tint Tint, string? Says = null) : Mark
{
    /// <summary>The advance width.</summary>
    public double Width => FontBook.Width(Text, Face, Size);

    public override Box Bounds => FontBook.Shape(Text, Face).Ink.Scaled(Size).Moved(At.X, At.Y);
}

/// <summary>Marks moved and scaled together.</summary>
/// <param name="Label">What the group is, for readers who cannot see it; null where its texts say it.</param>
/// <param name="Link">An address that the group leads to.</param>
public sealed record GroupMark(Point At, double Scale, ImmutableArray<Mark> Marks, string? Label = null, string? Link = null) : Mark
{
    public override Box Bounds =>
        Marks.IsEmpty ? new(At.X, At.Y, At.X, At.Y) : Marks.Select(m => m.Bounds).Aggregate((a, b) => a.Union(b)).Scaled(Scale).Moved(At.X, At.Y);
}
