using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Tests;

/// <summary>What every drawing must keep to.</summary>
public static class Layout
{
    private const double Hair = 0.35;

    public static void NothingIsCut(Drawing drawing)
    {
        foreach (var (mark, box) in drawing.Flattened())
            Assert.True(drawing.Page.Holds(box, 0.01), $"{mark} fills {box}, outside {drawing.Page}");
    }

    public static void NoTextsOverlap(Drawing drawing)
    {
        var texts = drawing.Flattened().Where(m => m.Mark is TextMark { Text: not "" }).OrderBy(m => m.Bounds.Top).ToArray();
        for (var i = 0; i < texts.Length; i++)
        {
            for (var j = i + 1; j < texts.Length && texts[j].Bounds.Top < texts[i].Bounds.Bottom; j++)
                Assert.False(texts[i].Bounds.Overlaps(texts[j].Bounds, Hair),
                    $"'{((TextMark)texts[i].Mark).Text}' at {texts[i].Bounds} overlaps '{((TextMark)texts[j].Mark).Text}' at {texts[j].Bounds}");
        }
    }

    /// <summary>Solid marks (dots, bars, arrows) keep clear of texts, save one that a text stands wholly inside, as a finger's number does.</summary>
    public static void NoTextIsCovered(Drawing drawing)
    {
        var all = drawing.Flattened().ToArray();
        var solids = all.Where(m => m.Mark is CircleMark or PathMark or RectMark { Pen.Fill: not (Tint.Paper or Tint.Faint) }).ToArray();
        foreach (var (mark, text) in all.Where(m => m.Mark is TextMark { Text: not "" }))
        {
            foreach (var solid in solids.Where(s => s.Bounds.Overlaps(text, Hair) && !s.Bounds.Holds(text, Hair)))
                Assert.Fail($"'{((TextMark)mark).Text}' at {text} is touched by {solid.Mark}");
        }
    }

    public static void IsSound(Drawing drawing)
    {
        NothingIsCut(drawing);
        NoTextsOverlap(drawing);
        NoTextIsCovered(drawing);
    }

    public static string[] Texts(Drawing drawing) => [.. drawing.Flattened().Select(m => m.Mark).OfType<TextMark>().Select(t => t.Text)];
}
