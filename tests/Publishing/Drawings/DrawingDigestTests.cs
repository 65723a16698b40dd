using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Tests.Drawings;

public sealed class DrawingDigestTests
{
    private static readonly Pen plain = new(Tint.Ink, Tint.Line, 1, [1, 2], 0.5, false);

    /// <summary>Every mark, and each with one of its values changed.</summary>
    private static readonly Mark[] marks =
    [
        .. Pens().Select(p => new LineMark(new(1, 2), new(3, 4), p)), new LineMark(new(0, 2), new(3, 4), plain), new LineMark(new(1, 0), new(3, 4), plain),
        new LineMark(new(1, 2), new(0, 4), plain), new LineMark(new(1, 2), new(3, 0), plain),
        new RectMark(new(1, 2, 3, 4), 1, plain), new RectMark(new(0, 2, 3, 4), 1, plain), new RectMark(new(1, 0, 3, 4), 1, plain),
        new RectMark(new(1, 2, 9, 4), 1, plain), new RectMark(new(1, 2, 3, 9), 1, plain), new RectMark(new(1, 2, 3, 4), 0, plain),
            new RectMark(new(1, 2, 3, 4), 1, new()),
        new CircleMark(new(1, 2), 3, plain), new CircleMark(new(0, 2), 3, plain), new CircleMark(new(1, 0), 3, plain), new CircleMark(new(1, 2), 0, plain),
            new CircleMark(new(1, 2), 3, new()),
        new PathMark("M0 0L1 1", plain), new PathMark("M0 0L1 2", plain), new PathMark("M0 0L1 1", new()),
        new TextMark("a", new(1, 2), Face.Text, 9, Tint.Ink), new TextMark("b", new(1, 2), Face.Text, 9, Tint.Ink),
            new TextMark("a", new(0, 2), Face.Text, 9, Tint.Ink),
        new TextMark("a", new(1, 0), Face.Text, 9, Tint.Ink), new TextMark("a", new(1, 2), Face.Strong, 9, Tint.Ink),
            new TextMark("a", new(1, 2), Face.Text, 8, Tint.Ink),
        new TextMark("a", new(1, 2), Face.Text, 9, Tint.Quiet), new TextMark("a", new(1, 2), Face.Text, 9, Tint.Ink, ""),
        new GroupMark(new(1, 2), 1, []), new GroupMark(new(0, 2), 1, []), new GroupMark(new(1, 0), 1, []), new GroupMark(new(1, 2), 2, []),
        new GroupMark(new(1, 2), 1, [new CircleMark(new(1, 2), 3, plain)]), new GroupMark(new(1, 2), 1, [], "label"),
            new GroupMark(new(1, 2), 1, [], null, "link"),
    ];

    [Fact]
    public void DrawingsThatLookOtherHaveOtherDigests()
    {
        Drawing[] drawings = [.. marks.Select(m => new Drawing(10, 10, [m])), new(10, 10, []), new(9, 10, []), new(10, 9, []),
            new(10, 10, [marks[0], marks[0]])];
        Assert.Equal(drawings.Length, drawings.Select(d => Convert.ToHexString(DrawingDigest.Of(d))).Distinct().Count());
        Assert.Equal(DrawingDigest.Of(new(10, 10, [marks[0]])), DrawingDigest.Of(new(10, 10, [marks[0] with { }])));
    }

    /// <summary>A mark, or a value of one, that comes to be must come into the digest too.</summary>
    [Fact]
    public void EveryMarkAndEveryValueIsTried()
    {
        var kinds = typeof(Mark).Assembly.GetTypes().Where(t => t.IsSubclassOf(typeof(Mark))).ToArray();
        Assert.Equal(kinds.ToHashSet(), marks.Select(m => m.GetType()).ToHashSet());
        Assert.Equal([("CircleMark", 3), ("GroupMark", 5), ("LineMark", 3), ("PathMark", 2), ("RectMark", 3), ("TextMark", 6)],
            kinds.Select(k => (k.Name, Values(k))).Order());
        Assert.Equal(6, Values(typeof(Pen)));
    }

    private static int Values(Type type) => type.GetConstructors().Max(c => c.GetParameters().Length);

    private static Pen[] Pens() =>
    [
        plain, plain with { Fill = Tint.Now }, plain with { Fill = null }, plain with { Stroke = Tint.Now }, plain with { Width = 2 },
            plain with { Dash = [1, 3] }, plain with { Dash = default },
        plain with { Opacity = 1 }, plain with { RoundEnds = true },
    ];
}
