using System.Collections.Immutable;

namespace Harkbook.Publishing.Drawings;

/// <summary>
/// A measured list of marks on a sheet of a size in points (1/72 inch). One list makes SVG, PNG, PDF and video frames;
/// marks are drawn in order.
/// </summary>
public sealed record Drawing(double Width, double Height, ImmutableArray<Mark> Marks, string Title = "")
{
    public Box Page => new(0, 0, Width, Height);

    /// <summary>The drawing as one mark of another drawing.</summary>
    public GroupMark Placed(double left, double top, double scale = 1, string? link = null) =>
        new(new(left, top), scale, Marks, Title.Length > 0 ? Title : null, link);

    /// <summary>Every mark that is not a group, with the box it fills on this drawing's page, in drawing order.</summary>
    public IEnumerable<(Mark Mark, Box Bounds)> Flattened() => Flatten(Marks, 0, 0, 1);

    private static IEnumerable<(Mark, Box)> Flatten(IEnumerable<Mark> marks, double dx, double dy, double scale)
    {
        foreach (var mark in marks)
        {
            if (mark is GroupMark g)
            {
                foreach (var inner in Flatten(g.Marks, dx + g.At.X * scale, dy + g.At.Y * scale, scale * g.Scale))
                    yield return inner;
            }
            else
            {
                yield return (mark, mark.Bounds.Scaled(scale).Moved(dx, dy));
            }
        }
    }
}
