using System.Collections.Immutable;

namespace Harkbook.Publishing.Drawings;

/// <summary>Where a text stands about the place given for it.</summary>
public enum Align
{
    Left,
    Centre,
    Right,
}

/// <summary>Collects marks while something is engraved.</summary>
public sealed class Sketch
{
    private readonly ImmutableArray<Mark>.Builder marks = ImmutableArray.CreateBuilder<Mark>();

    public void Add(Mark mark) => marks.Add(mark);

    public void Add(IEnumerable<Mark> many) => marks.AddRange(many);

    public void Line(double x1, double y1, double x2, double y2, double width, Tint tint = Tint.Line) =>
        Add(new LineMark(new(x1, y1), new(x2, y2), new(Stroke: tint, Width: width)));

    /// <summary>A row of whole dots, the sign of a heard claim; four dots at least.</summary>
    public void Dots(double left, double right, double y, double size, Tint tint = Tint.Heard)
    {
        const double GapOfDot = 1.4;
        var length = Math.Max(right - left, size * (4 + 3 * GapOfDot));
        var dots = Math.Round((length + size * GapOfDot) / (size * (1 + GapOfDot)));
        var gap = (length - dots * size) / (dots - 1);
        Add(new LineMark(new(left, y), new(left + length, y), new(Stroke: tint, Width: size, Dash: [size, gap])));
    }

    public void Fill(Box box, Tint tint, double corner = 0, double opacity = 1) =>
        Add(new RectMark(box, corner, new(Fill: tint, Opacity: opacity)));

    public void Ring(double x, double y, double radius, double width, Tint tint, Tint? fill = null) =>
        Add(new CircleMark(new(x, y), radius, new(fill, tint, width)));

    public void Dot(double x, double y, double radius, Tint tint) => Add(new CircleMark(new(x, y), radius, new(Fill: tint)));

    /// <summary>Sets a line of text and returns its advance width.</summary>
    public double Text(string text, double x, double baseline, Face face, double size, Tint tint = Tint.Ink, Align align = Align.Left, string? says = null)
    {
        if (text.Length == 0)
            return 0;
        var width = FontBook.Width(text, face, size);
        var left = align switch { Align.Left => x, Align.Centre => x - width / 2, _ => x - width };
        Add(new TextMark(text, new(left, baseline), face, size, tint, says));
        return width;
    }

    public Drawing ToDrawing(double width, double height, string title = "") => new(width, height, marks.ToImmutable(), title);
}
