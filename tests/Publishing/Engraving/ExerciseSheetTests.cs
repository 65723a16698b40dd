using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;

namespace Harkbook.Publishing.Tests.Engraving;

public class ExerciseSheetTests
{
    private static readonly Song Picked = SongText.Parse(
        "title Low Water\nmeter 6/8\ncount eighths\nshape D xx0232\nsection A\nchords | D | D |\npick\n  D3 | 0 . . 0 . . | 0 . . 0 . . |\n  G3 | . 2 . . 2 . "
            + "| . 2 . . 2 . |\n", "low.hark").Song!;

    [Fact]
    public void LongPassagesFlowOverSoundPages()
    {
        var pages = Pages(SampleSongs.SaltRoad, 1, SampleSongs.SaltRoad.Bars.Count());
        Assert.True(pages.Count > 1);
        Assert.All(pages, Layout.IsSound);
    }

    // 6/8 counted in eighths: by hand 1 to 6 in each of two bars, and no "la".
    [Fact]
    public void PickedBarsAreDrawnAsTabOnTheSongsCount()
    {
        var words = Words(Pages(Picked, 1, 2));
        Assert.Equal(2, words.Count(w => w == "5"));
        Assert.DoesNotContain("la", words);
        Assert.Contains("D3", words);
        Assert.DoesNotContain("voice and guitar on one count, bars 1 to 2", words);
    }

    // Two speeds of three rounds each: six boxes of 10 by 10 points.
    [Fact]
    public void EachRoundHasABoxToTick()
    {
        var boxes = Pages(Picked, 1, 2).SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<RectMark>().Count(r => r.Box is { Width: 10, Height: 10 });
        Assert.Equal(6, boxes);
        Assert.Contains("60%", Words(Pages(Picked, 1, 2)));
    }

    private static IReadOnlyList<Drawing> Pages(Song song, int first, int last)
    {
        var plan = PracticePlan.Of(song, new() { FirstBar = first, LastBar = last, Speeds = [0.6, 1], Rounds = 3 });
        return ExerciseSheet.Pages(song, [.. song.Bars.Skip(first - 1).Take(last - first + 1)], plan.Stages, $"bars {first} to {last}", PaperSize.A4);
    }

    private static string[] Words(IEnumerable<Drawing> pages) => [.. pages.SelectMany(p => p.Flattened()).Select(m => m.Mark).OfType<TextMark>()
        .Select(t => t.Text)];
}
