using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Units;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Where the open sheet says that things stand, against the marks that are drawn.</summary>
public class OpenSheetTests
{
    private static readonly Song Song = SongText.Parse("""
        title T
        section A
        chords | D . G/B . | A7sus4 . . . | D | G . . A | D |
        section B
        chords | Bm | E |
        """, "t").Song!;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    public void EveryBarStandsOnceInOrderAndNoRowHoldsMore(int most)
    {
        var rows = OpenSheet.Engrave(Song, 560, most);

        Assert.Equal(Enumerable.Range(1, 7), rows.SelectMany(r => r.Bars).Select(b => b.Bar.Number));
        Assert.All(rows, r => Assert.InRange(r.Bars.Length, 1, most));
        Assert.All(rows, r => Assert.Equal(r.Bars.Any(b => b.Bar.Number > 5) ? 1 : 0, r.Section));
    }

    [Fact]
    public void AChordsBoxHoldsItsRootAndNoOther()
    {
        foreach (var row in OpenSheet.Engrave(Song, 560, 4))
        {
            var roots = row.Drawing.Flattened().Where(m => m.Mark is TextMark { Tint: Tint.Hand or Tint.Quiet, Face: Face.Strong, Size: > 12, Text.Length: 1 })
                .Select(m => m.Bounds.Centre).ToList();
            foreach (var box in row.Bars.SelectMany(b => b.Chords).Select(c => c.Box))
                Assert.Single(roots, r => r.X >= box.Left && r.X <= box.Right && r.Y >= box.Top && r.Y <= box.Bottom);
        }
    }

    [Fact]
    public void BeatsStandBetweenTheirBarLines() => Assert.All(OpenSheet.Engrave(Song, 560, 4).SelectMany(r => r.Bars), bar =>
    {
        var places = Enumerable.Range(0, 4).Select(b => bar.X(Beats.Whole(b))).ToArray();
        Assert.Equal(places.Order(), places);
        Assert.All(places, x => Assert.InRange(x, bar.Left, bar.Right));
    });
}
