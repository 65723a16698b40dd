using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Sheets;

namespace Harkbook.Publishing.Tests.Engraving;

public class CoordinationChartTests
{
    private static readonly IReadOnlyList<Bar> Verse = [.. SampleSongs.LanternFerry.Sections[0].Bars.Take(4)];

    [Fact]
    public void TheChartLooksAsApproved()
    {
        var drawing = CoordinationChart.Engrave(Verse, 520);
        Layout.IsSound(drawing);
        Golden.Check("coordination.svg", SvgWriter.Write(drawing, Palette.Paper));
    }

    [Theory]
    [InlineData(200)]
    [InlineData(511)]
    [InlineData(1800)]
    public void ChartsFitAnyWidth(double width) => Layout.IsSound(CoordinationChart.Engrave(Verse, width));

    // Bars 1 to 3 of the sample sing at 0 1/2 1 3/2 2 5/2 3 7/2, at 0 3/2 2 5/2 3 7/2 and at 0 5/2 3 15/4, bar 4 at 1/4 3/4 1;
    // each bar is struck at 0 1 3/2 5/2 3 7/2. So 6, 5 and 3 starts fall together, and 1 in bar 4, by hand.
    [Fact]
    public void TogetherMarksJoinTheLines()
    {
        var drawing = CoordinationChart.Engrave(Verse, 1000);
        var uprights = drawing.Flattened().Select(m => m.Mark).OfType<LineMark>().Count(l => l.Pen is { Stroke: Tint.Ink, Width: 1.5 });
        Assert.Equal(6 + 5 + 3 + 1 + 1, uprights); // and one in the key
    }

    [Fact]
    public void EmptyPassagesAreRefused() => Assert.Throws<ArgumentException>(() => CoordinationChart.Engrave([], 500));
}
