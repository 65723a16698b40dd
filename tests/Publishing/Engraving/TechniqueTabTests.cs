using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Engraving.Tabs;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>What the hands do, as tab prints it (common practice).</summary>
public class TechniqueTabTests
{
    private const string Head = "title T\ntuning D4 G4\ncapo none\nmeter 4/4\nsection A\nchords | N.C. | N.C. |\npick\n";

    [Theory]
    [InlineData("5b6", "½")]
    [InlineData("5b7", "1")]
    [InlineData("5b8", "1½")]
    [InlineData("5b5+1/2", "¼")]
    [InlineData("x", "×")]
    [InlineData("5ring", "let ring")]
    [InlineData("5:p", "p")]
    [InlineData("5:c", "c")]
    [InlineData("t12", "t")]
    public void ASignIsThere(string cell, string text) => Assert.Contains(text, Layout.Texts(Of($"G4 | {cell} | . |")));

    [Theory]
    [InlineData("<12>", "<12>")]
    [InlineData("2<14>", "2<14>")]
    [InlineData("(5)", "(5)")]
    [InlineData("3h5", "3h5")]
    [InlineData("h5", "h5")]
    public void ANumberStandsWithItsSigns(string cell, string text) => Assert.Contains(text, string.Concat(Layout.Texts(Of($"G4 | {cell} | . |"))));

    [Theory]
    [InlineData("5 h7 . .", 1)]
    [InlineData("7 p5 . .", 1)]
    [InlineData("5 s7 . .", 1)]
    [InlineData("5 h7 p5 .", 2)]
    [InlineData("5 7 . .", 0)]
    [InlineData(". 3h5 . .", 1)]
    public void BoundNotesHaveASlurOverThem(string cells, int slurs) => Assert.Equal(slurs, Slurs(Of($"G4 | {cells} | . |")).Length);

    [Fact]
    public void ASlurReachesFromNumberToNumber()
    {
        var drawing = Of("G4 | 5 h7 . . | . |");
        var (slur, from, to) = (Assert.Single(Slurs(drawing)), TextOf(drawing, "5"), TextOf(drawing, "7"));
        Assert.InRange(slur.Left, from.Left, from.Right);
        Assert.InRange(slur.Right, to.Left, to.Right);
        Assert.True(slur.Bottom <= to.Top + 0.35);
    }

    [Fact]
    public void ASlurGoesOnOverTheBarLine()
    {
        var slurs = Slurs(Of("G4 | . . . 5 | p3 . . . |")).OrderBy(s => s.Left).ToArray();
        Assert.Equal(2, slurs.Length);
        Assert.Equal(slurs[0].Right, slurs[1].Left, 1.0);
    }

    [Theory]
    [InlineData("3 s5", 1)]
    [InlineData("5 s3", -1)]
    public void ASlideIsALineThatLeansAsTheFretsDo(string cells, int lean)
    {
        var slanted = Assert.Single(Of($"G4 | {cells} | . |").Flattened().Select(m => m.Mark).OfType<LineMark>(), l => l.From.X != l.To.X
            && l.From.Y != l.To.Y);
        Assert.Equal(lean, Math.Sign(slanted.From.Y - slanted.To.Y));
    }

    /// <summary>The picking hand's letters can be read: as high as the fret numbers, in ink.</summary>
    [Fact]
    public void LettersAreReadable()
    {
        var texts = Of("G4 | 5 h7:m . . | . |").Flattened().Select(m => m.Mark).OfType<TextMark>().ToArray();
        var number = texts.First(t => t.Text == "7");
        Assert.All(texts.Where(t => t.Text is "h" or "m"), t => Assert.True(t.Tint == Tint.Ink && t.Size >= 0.8 * number.Size));
    }

    [Fact]
    public void TheExampleIsSoundAndItsSignsAreExplained()
    {
        var song = SongText.Parse(File.ReadAllText(Path.Combine(Root(), "docs", "examples", "techniques", "what-the-hands-do.hark")), "example").Song!;
        var pages = BarSheet.Engrave(song, PaperSize.A4);
        Assert.All(pages, Layout.IsSound);
        var words = string.Join(' ', pages.SelectMany(Layout.Texts));
        Assert.All(["h hammered on", "p pulled off", "s slid to", "t tapped", "× muted", "harmonic", "vibrato", "whole steps", "p thumb", "just before",
            "hardly played"], w => Assert.Contains(w, words));
        Layout.IsSound(TabBlock.Engrave([.. song.Bars], new(song.Tuning.Value), 540));
    }

    private static Box[] Slurs(Drawing drawing) => [.. drawing.Flattened().Where(m => m.Mark is PathMark { Pen.Fill: Tint.Ink }).Select(m => m.Bounds)];

    private static Box TextOf(Drawing drawing, string text) => drawing.Flattened()
        .First(m => m.Mark is TextMark t && t.Text == text && t.Face == Face.Digits).Bounds;

    private static Drawing Of(string line)
    {
        var song = SongText.Parse(Head + line, "t").Song!;
        var drawing = TabBlock.Engrave([.. song.Bars], new(song.Tuning.Value), 400);
        Layout.IsSound(drawing);
        return drawing;
    }

    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Harkbook.slnx")))
            folder = Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("The tests run inside the repository.");
        return folder;
    }
}
