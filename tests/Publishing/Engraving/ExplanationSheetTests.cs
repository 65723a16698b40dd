using Harkbook.Music.Analysis;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Engraving;

public class ExplanationSheetTests
{
    private static readonly Remark Told = new(RemarkKind.KeyOfTheSong, "The song is in E major.", [new("key", "E major", "as the song file says")])
    {
        Places = [new(3, Beats.Zero, Beats.Whole(4))],
        Usualness = new(Frequency.Usual, "nearly every song has a key"),
    };

    [Fact]
    public void NothingToSayGivesNoPage() =>
        Assert.Empty(ExplanationSheet.Engrave(new(SampleSongs.LanternFerry, []), PaperSize.A4));

    [Fact]
    public void SentencePlaceMeasureAndFactStandThere()
    {
        var texts = Texts(ExplanationSheet.Engrave(new(SampleSongs.LanternFerry, [Told]), PaperSize.A4));
        Assert.Contains("The song is in E major.", texts);
        Assert.Contains("Verse 1, bar 3", texts);
        Assert.Contains("Usual", texts);
        Assert.Contains("how usual: usual (nearly every song has a key)", texts);
        Assert.Contains("key: E major (as the song file says)", texts);
    }

    [Fact]
    public void ManySentencesRunOverPagesAndNoneRunsOffTheEdge()
    {
        var pages = ExplanationSheet.Engrave(new(SampleSongs.LanternFerry, [.. Enumerable.Repeat(Told, 80)]), PaperSize.Letter);
        Assert.True(pages.Length > 1);
        Assert.All(pages, Layout.IsSound);
    }

    /// <summary>However many sentences there are, the last page holds more than five lines: 45 points of 590 or so that a page of A4 has for them.</summary>
    [Fact]
    public void NoLastPageHoldsFiveLines()
    {
        for (var sentences = 5; sentences < 60; sentences++)
        {
            var pages = ExplanationSheet.Engrave(new(SampleSongs.LanternFerry, [.. Enumerable.Repeat(Told, sentences)]), PaperSize.A4);
            var last = pages[^1].Flattened().Where(m => m.Mark is TextMark && m.Bounds.Top > 50 && m.Bounds.Bottom < 780).Select(m => Math.Round(m.Bounds.Top))
                .Distinct().Count();
            Assert.True(pages.Length == 1 || last > 5, $"{sentences} sentences leave {last} lines on page {pages.Length}.");
            Assert.All(pages, Layout.IsSound);
        }
    }

    private static string[] Texts(IEnumerable<Drawing> pages) => [.. pages.SelectMany(Layout.Texts)];
}
