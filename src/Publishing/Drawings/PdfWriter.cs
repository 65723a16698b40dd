using SkiaSharp;

namespace Harkbook.Publishing.Drawings;

/// <summary>Drawings as the pages of a PDF: text can be found and copied, fonts are embedded, the same pages give the same bytes.</summary>
public static class PdfWriter
{
    /// <summary>Skia rounds page sizes to whole dots of this many an inch.</summary>
    private const float PageGrid = 600;

    /// <param name="title">The document's title, as readers show it.</param>
    /// <param name="date">The date written into the file; it comes in from outside so that the file is reproducible.</param>
    public static void Write(IReadOnlyList<Drawing> pages, Stream output, Palette palette, string title, DateTime date)
    {
        if (pages.Count == 0)
            throw new ArgumentException("A PDF needs one page or more.", nameof(pages));
        var metadata = new SKDocumentPdfMetadata
        {
            Title = title,
            Creator = "Harkbook",
            Producer = "Harkbook",
            RasterDpi = PageGrid,
            Creation = DateTime.SpecifyKind(date, DateTimeKind.Utc),
            Modified = DateTime.SpecifyKind(date, DateTimeKind.Utc),
        };
        using var buffer = new MemoryStream();
        using (var document = SKDocument.CreatePdf(buffer, metadata))
        {
            foreach (var page in pages)
                Write(document, page, palette);
            document.Close();
        }
        buffer.Position = 0;
        buffer.CopyTo(output);
    }

    private static void Write(SKDocument document, Drawing page, Palette palette)
    {
        using var canvas = document.BeginPage((float)page.Width, (float)page.Height);
        if (palette != Palette.Paper)
            Ground(canvas, palette[Tint.Paper]);
        DrawingRenderer.DrawSearchable(canvas, page, palette);
        document.EndPage();
    }

    private static void Ground(SKCanvas canvas, Colour colour) => canvas.Clear(new SKColor(colour.Red, colour.Green, colour.Blue));
}
