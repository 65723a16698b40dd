using System.Xml.Linq;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using SkiaSharp;
using UglyToad.PdfPig;

namespace Harkbook.Publishing.Tests.Drawings;

public class WriterTests
{
    private static readonly DateTime Date = new(2026, 3, 1, 0, 0, 0, DateTimeKind.Utc);
    private static readonly Drawing[] Pages = [.. BarSheet.Engrave(SampleSongs.LanternFerry, PaperSize.A4)];

    private static byte[] Pdf()
    {
        using var stream = new MemoryStream();
        PdfWriter.Write(Pages, stream, Palette.Paper, "The Lantern Ferry", Date);
        return stream.ToArray();
    }

    [Fact]
    public void APdfHasEveryPageAtItsSize()
    {
        using var pdf = PdfDocument.Open(Pdf());
        Assert.Equal(Pages.Length, pdf.NumberOfPages);
        Assert.Equal(595.28, pdf.GetPage(1).Width, 0.07);
        Assert.Equal(841.89, pdf.GetPage(1).Height, 0.07);
        Assert.Equal("The Lantern Ferry", pdf.Information.Title);
    }

    [Fact]
    public void WordsOfAPdfCanBeFound()
    {
        using var pdf = PdfDocument.Open(Pdf());
        var words = pdf.GetPage(1).GetWords().Select(w => w.Text).ToHashSet();
        Assert.Superset(new HashSet<string> { "Lantern", "(Převozník", "lan-", "through", "443.2", "Verse", "D" }, words);
    }

    // PDF 1.7 (ISO 32000-1), 14.9.4: ActualText replaces what is drawn when text is extracted.
    [Fact]
    public void ChordNamesAreFoundAsTheyAreWritten()
    {
        using var pdf = PdfDocument.Open(Pdf());
        var said = pdf.GetPages().SelectMany(p => p.GetMarkedContents()).Select(m => m.ActualText).ToHashSet();
        Assert.Superset(new HashSet<string?> { "G/D", "A7sus4", "Bm7", "F#m7b5" }, said);
    }

    [Fact]
    public void FontsAreEmbedded()
    {
        using var pdf = PdfDocument.Open(Pdf());
        var letters = pdf.GetPages().SelectMany(p => p.Letters).ToArray();
        Assert.All(letters.Select(l => l.FontName!).Distinct(), name => Assert.Matches("^[A-Z]{6}\\+(IBMPlex|NotoMusic)", name));
        Assert.Contains("/FontFile2", System.Text.Encoding.Latin1.GetString(Pdf()));
    }

    [Fact]
    public void TheSamePagesGiveTheSameBytes() => Assert.Equal(Pdf(), Pdf());

    [Fact]
    public void APdfNeedsAPage() =>
        Assert.Throws<ArgumentException>(() => PdfWriter.Write([], Stream.Null, Palette.Paper, "", Date));

    [Fact]
    public void APngHasTheScaledSizeAndIsNotBlank()
    {
        using var stream = new MemoryStream();
        PngWriter.Write(Pages[0], stream, Palette.Screen, 2);
        using var picture = SKBitmap.Decode(stream.ToArray());
        Assert.Equal((1191, 1684), (picture.Width, picture.Height));
        var ground = Palette.Screen[Tint.Paper];
        Assert.Equal(new SKColor(ground.Red, ground.Green, ground.Blue), picture.GetPixel(0, 0));
        Assert.Contains(picture.Pixels, p => p.Red > 230);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(100)]
    public void APngNeedsASensibleScale(double scale) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => PngWriter.Write(Pages[0], Stream.Null, Palette.Paper, scale));

    [Fact]
    public void PortableSvgHoldsNoText()
    {
        var svg = XDocument.Parse(SvgWriter.Write(Pages[0], Palette.Paper, SvgText.Outlines));
        Assert.DoesNotContain(svg.Descendants(), e => e.Name.LocalName == "text");
        Assert.Contains(svg.Descendants(), e => (string?)e.Attribute("aria-label") == "F#m7b5");
    }

    [Fact]
    public void LiveSvgHoldsItsWordsPinnedToTheirWidth()
    {
        var svg = XDocument.Parse(SvgWriter.Write(Pages[0], Palette.Paper));
        var title = svg.Descendants().First(e => e.Name.LocalName == "text" && e.Value.StartsWith("The Lantern"));
        Assert.Equal(FontBook.Width(title.Value, Face.Strong, 25), (double)title.Attribute("textLength")!, 0.01);
    }

    [Fact]
    public void SvgCleansWhatXmlCannotHold()
    {
        var sketch = new Sketch();
        sketch.Text("a\u0001<b>\uD800&", 0, 10, Face.Text, 10);
        var svg = XDocument.Parse(SvgWriter.Write(sketch.ToDrawing(50, 20, "\u0002t"), Palette.Paper));
        Assert.Equal("a<b>\uFFFD&", svg.Descendants().Single(e => e.Name.LocalName == "text").Value);
    }

    [Fact]
    public void RecordedAndDirectFramesAreAlike()
    {
        var drawing = Pages[0];
        Assert.Equal(Frame(c => DrawingRenderer.Draw(c, drawing, Palette.Screen)), Frame(c =>
        {
            using var recorded = DrawingRenderer.Record(drawing, Palette.Screen);
            c.DrawPicture(recorded);
        }));
    }

    private static byte[] Frame(Action<SKCanvas> draw)
    {
        using var bitmap = new SKBitmap(320, 180);
        using var canvas = new SKCanvas(bitmap);
        canvas.Clear(SKColors.Black);
        draw(canvas);
        canvas.Flush();
        return bitmap.Bytes;
    }
}
