using System.Collections.Immutable;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving;

/// <summary>Stacks blocks down pages, and numbers the pages when all are known.</summary>
internal sealed class PageFlow(PaperSize paper, string title, IReadOnlyList<string> footer)
{
    private const double Side = 42;
    private const double TopEdge = 40;
    private const double FootSize = 6.6;
    private const double FootLine = 8.6;

    private readonly List<Sketch> pages = [];
    private double y;

    public double Width => paper.Width - 2 * Side;

    private double Bottom => paper.Height - 34 - footer.Count * FootLine - 10;

    /// <param name="space">Room above the block, left out at the top of a page.</param>
    /// <param name="following">Height that must fit below the block on the same page.</param>
    public void Add(Drawing block, double space, double following = 0)
    {
        var scale = Math.Min(1, (Bottom - TopEdge - 16) / block.Height);
        var height = block.Height * scale;
        if (pages.Count == 0 || (y + space + height + following > Bottom && !AtTop))
            StartPage();
        if (!AtTop)
            y += space;
        pages[^1].Add(block.Placed(Side, y, scale));
        y += height;
        AtTop = false;
    }

    private bool AtTop { get; set; }

    public ImmutableArray<Drawing> Finish()
    {
        for (var i = 0; i < pages.Count; i++)
            DrawFooter(pages[i], i + 1);
        return [.. pages.Select((p, i) => p.ToDrawing(paper.Width, paper.Height, $"{title}, page {i + 1} of {pages.Count}"))];
    }

    private void StartPage()
    {
        var page = new Sketch();
        pages.Add(page);
        (y, AtTop) = (TopEdge, true);
        if (pages.Count == 1)
            return;
        page.Text(TextWrap.Cut(title, Face.Text, 8, Width), Side, TopEdge - 4, Face.Text, 8, Tint.Quiet);
        page.Line(Side, TopEdge + 2, paper.Width - Side, TopEdge + 2, 0.5, Tint.Faint);
        y = TopEdge + 14;
    }

    private void DrawFooter(Sketch page, int number)
    {
        var top = Bottom + 12;
        page.Line(Side, top - 8, paper.Width - Side, top - 8, 0.5, Tint.Faint);
        for (var i = 0; i < footer.Count; i++)
            page.Text(footer[i], Side, top + (i + 0.4) * FootLine, Face.Text, FootSize, Tint.Quiet);
        page.Text($"{number} of {pages.Count}", paper.Width - Side, top + 0.4 * FootLine, Face.Strong, 8, Tint.Ink, Align.Right);
    }
}
