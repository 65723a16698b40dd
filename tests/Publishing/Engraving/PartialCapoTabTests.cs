using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Diagrams and tab of one page count frets from one place. Under a capo at fret 2 on the A, D and G strings, counted by hand.</summary>
public class PartialCapoTabTests
{
    private const string Bars = "meter 4/4\nkey A major\nshape A 002220\nsection A\nchords | A |\npick\nE4 | . . . 3 |\nD3 | 0 2 2h3 <12> |\n";

    [Theory]
    [InlineData("2 on A2 D3 G3", "2 4 4 5 14 3")]
    [InlineData("2", "0 2 2 3 12 3")]
    public void TabCountsAsDiagramsDo(string capo, string printed)
    {
        var song = SongText.Parse($"title T\ntuning E2 A2 D3 G3 B3 E4\ncapo {capo}\n{Bars}", "t").Song!;
        Drawing[] pages =
        [
            TabBlock.Engrave([.. song.Bars], new(song.Tuning.Value, song.Capo.Value), 400),
            ExerciseSheet.Chart(song, [.. song.Bars], 400),
            BarStack.Engrave([.. song.Bars], SongRows.Of(song), 400),
            BarStack.Engrave([.. song.Bars], [SheetPatterns.OfTab(song).Row], 400),
        ];
        Assert.All(pages, page =>
        {
            Layout.IsSound(page);
            var text = string.Join(' ', page.Flattened().Where(m => m.Mark is TextMark { Face: Face.Digits }).Select(m => ((TextMark)m.Mark).Text));
            Assert.Equal(printed.Split(' ').Order(), text.Split(' ').Order());
        });
    }
}
