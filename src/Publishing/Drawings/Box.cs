namespace Harkbook.Publishing.Drawings;

/// <summary>A place in a drawing in points, x to the right and y downward.</summary>
public readonly record struct Point(double X, double Y)
{
    public static Point operator +(Point a, Point b) => new(a.X + b.X, a.Y + b.Y);
}

/// <summary>An upright rectangle in points; y grows downward, so <see cref="Top"/> ≤ <see cref="Bottom"/>.</summary>
public readonly record struct Box(double Left, double Top, double Right, double Bottom)
{
    public double Width => Right - Left;

    public double Height => Bottom - Top;

    public Point Centre => new((Left + Right) / 2, (Top + Bottom) / 2);

    public static Box At(double left, double top, double width, double height) => new(left, top, left + width, top + height);

    public Box Moved(double dx, double dy) => new(Left + dx, Top + dy, Right + dx, Bottom + dy);

    public Box Scaled(double by) => new(Left * by, Top * by, Right * by, Bottom * by);

    public Box Grown(double by) => new(Left - by, Top - by, Right + by, Bottom + by);

    public Box Union(Box other) =>
        new(Math.Min(Left, other.Left), Math.Min(Top, other.Top), Math.Max(Right, other.Right), Math.Max(Bottom, other.Bottom));

    /// <summary>Whether the two share more than an edge; <paramref name="slack"/> points of overlap are forgiven.</summary>
    public bool Overlaps(Box other, double slack = 0) =>
        Left + slack < other.Right && other.Left + slack < Right && Top + slack < other.Bottom && other.Top + slack < Bottom;

    public bool Holds(Box other, double slack = 0) =>
        other.Left >= Left - slack && other.Top >= Top - slack && other.Right <= Right + slack && other.Bottom <= Bottom + slack;
}
