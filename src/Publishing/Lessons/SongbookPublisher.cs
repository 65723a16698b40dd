using System.Net;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;

namespace Harkbook.Publishing.Lessons;

/// <summary>Writes a songbook's index as one file to print.</summary>
public static class SongbookPublisher
{
    /// <summary>PDF, or HTML with the same pages drawn in it where the path ends so. The file appears whole or not at all.</summary>
    /// <param name="date">Written into the PDF, so that the same songbook on the same day gives the same bytes.</param>
    public static Task WriteAsync(Songbook book, string path, PaperSize paper, DateTime date, CancellationToken ct)
    {
        var pages = SongbookIndex.Engrave(book, paper);
        return AtomicFile.WriteAsync(path, async (stream, token) =>
        {
            if (path.EndsWith(".html", StringComparison.OrdinalIgnoreCase))
                await stream.WriteAsync(Encoding.UTF8.GetBytes(Html(pages, paper)), token);
            else
                PdfWriter.Write(pages, stream, Palette.Paper, SongbookIndex.Title, date);
        }, ct);
    }

    private static string Html(IReadOnlyList<Drawing> pages, PaperSize paper)
    {
        var drawn = string.Concat(pages.Select(p => $"<img alt=\"{WebUtility.HtmlEncode(p.Title)}\" src=\"data:image/svg+xml;base64,{Base64(p)}\">\n"));
        return $$"""
            <!DOCTYPE html>
            <html lang="en">
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <title>{{WebUtility.HtmlEncode(SongbookIndex.Title)}}</title>
            <style>
            @page { size: {{(paper == PaperSize.Letter ? "letter" : "A4")}}; margin: 0 }
            body { margin: 0; background: #ece9e2 }
            img { display: block; width: 100%; max-width: 60rem; margin: 1rem auto; background: #fff }
            @media print { body { background: none } img { max-width: none; margin: 0; break-after: page } }
            </style>
            {{drawn}}</html>

            """;
    }

    private static string Base64(Drawing page) => Convert.ToBase64String(Encoding.UTF8.GetBytes(SvgWriter.Write(page, Palette.Paper, SvgText.Outlines)));
}
