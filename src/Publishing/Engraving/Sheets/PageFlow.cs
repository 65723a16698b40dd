using System.Collections.Immutable;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Publishing.Engraving.Sheets;

/// <summary>
/// Stacks blocks down pages, and numbers the pages when all are known. A last page that would hold a few lines only is saved by less
/// room between the blocks or, where that isn't enough, filled by sharing all blocks evenly.
/// </summary>
internal sealed class PageFlow(PaperSize paper, string title, IReadOnlyList<string> footer)
{
    private const double Side = 42;
    private const double TopEdge = 40;
    private const double LaterTop = TopEdge + 14;
    private const double FootSize = 6.6;
    private const double FootLine = 8.6;

    /// <summary>The part of a page that its last one must fill.</summary>
    private const double LeastFilled = 0.25;

    /// <summary>How far the room between blocks may shrink.</summary>
    private const double Tightest = 0.6;

    private readonly List<Block> blocks = [];

    public double Width => paper.Width - 2 * Side;

    private double Bottom => paper.Height - 34 - footer.Count * FootLine - 10;

    private double PageHeight => Bottom - LaterTop;

    /// <param name="space">Room above the block, left out at the top of a page.</param>
    /// <param name="following">Height that must fit below the block on the same page.</param>
    public void Add(Drawing block, double space, double following = 0) => blocks.Add(new(block, space, following));

    public ImmutableArray<Drawing> Finish()
    {
        var placed = Balanced();
        var pages = new List<Sketch>();
        foreach (var (block, page, y, scale) in placed)
        {
            while (pages.Count <= page)
                pages.Add(StartPage(pages.Count));
            pages[page].Add(block.Placed(Side, y, scale));
        }
        for (var i = 0; i < pages.Count; i++)
            DrawFooter(pages[i], i + 1, pages.Count);
        return [.. pages.Select((p, i) => p.ToDrawing(paper.Width, paper.Height, $"{title}, page {i + 1} of {pages.Count}"))];
    }

    private readonly record struct Block(Drawing Drawing, double Space, double Following);

    private readonly record struct Placed(Drawing Drawing, int Page, double Y, double Scale)
    {
        public double End => Y + Drawing.Height * Scale;
    }

    private List<Placed> Balanced()
    {
        var loose = Lay(1, Bottom);
        if (!EndsThinly(loose))
            return loose;
        var tight = Lay(Tightest, Bottom);
        if (Pages(tight) < Pages(loose))
            return tight;
        for (var bottom = Bottom; bottom > LaterTop + PageHeight / 2; bottom -= PageHeight / 40)
        {
            var shared = Lay(1, bottom);
            if (Pages(shared) > Pages(loose))
                break;
            if (!EndsThinly(shared))
                return shared;
        }
        return loose;
    }

    private static int Pages(List<Placed> placed) => placed.Count == 0 ? 0 : placed[^1].Page + 1;

    private bool EndsThinly(List<Placed> placed) => Pages(placed) > 1 && placed[^1].End - LaterTop < LeastFilled * PageHeight;

    private List<Placed> Lay(double spacing, double bottom)
    {
        var placed = new List<Placed>();
        var (page, y, atTop) = (0, TopEdge, true);
        foreach (var (block, space, following) in blocks)
        {
            var scale = Math.Min(1, (Bottom - TopEdge - 16) / block.Height);
            var height = block.Height * scale;
            if (y + space * spacing + height + following > bottom && !atTop)
                (page, y, atTop) = (page + 1, LaterTop, true);
            if (!atTop)
                y += space * spacing;
            placed.Add(new(block, page, y, scale));
            (y, atTop) = (y + height, false);
        }
        return placed;
    }

    private Sketch StartPage(int before)
    {
        var page = new Sketch();
        if (before == 0)
            return page;
        page.Text(TextWrap.Cut(title, Face.Text, 8, Width), Side, TopEdge - 4, Face.Text, 8, Tint.Quiet);
        page.Line(Side, TopEdge + 2, paper.Width - Side, TopEdge + 2, 0.5, Tint.Faint);
        return page;
    }

    private void DrawFooter(Sketch page, int number, int count)
    {
        var top = Bottom + 12;
        page.Line(Side, top - 8, paper.Width - Side, top - 8, 0.5, Tint.Faint);
        for (var i = 0; i < footer.Count; i++)
            page.Text(footer[i], Side, top + (i + 0.4) * FootLine, Face.Text, FootSize, Tint.Quiet);
        page.Text($"{number} of {count}", paper.Width - Side, top + 0.4 * FootLine, Face.Strong, 8, Tint.Ink, Align.Right);
    }
}
