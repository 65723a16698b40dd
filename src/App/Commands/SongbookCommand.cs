using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Commands;

internal static class SongbookCommand
{
    private static readonly string[] Endings = [".pdf", ".html"];

    public static Command Create()
    {
        var folder = new Argument<string[]>("songs") { Description = "A folder of songs, or song files", Arity = ArgumentArity.OneOrMore };
        var where = new Option<string?>("--where") { Description = "Only where a shape (x02210) or a chord (G/D) is used", HelpName = "SHAPE-OR-CHORD" };
        var page = new Option<string?>("--page") { Description = "Write the index to print: a .pdf or .html file", HelpName = "FILE" };
        var letter = new Option<bool>("--letter") { Description = "US Letter paper instead of A4" };
        var json = Options.Json();
        var command = new Command("songbook", "Look at many songs together: what they share, where else a shape is used, and what they write in two ways")
        {
            folder, where, page, letter, json,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var wanted = ReadWhere(parsed.GetValue(where));
            var goal = ReadPage(parsed.GetValue(page));
            using var place = goal is null ? null : OutputPlace.ForFile(goal, "--page");
            var book = Songbook.Of(SongOpening.OpenAll(parsed.GetRequiredValue(folder)).Select(s => s.Song)
                .OrderBy(s => s.Title, StringComparer.CurrentCultureIgnoreCase));
            if (goal is not null)
                await SongbookPublisher.WriteAsync(book, goal, parsed.GetValue(letter) ? PaperSize.Letter : PaperSize.A4, DateTime.UtcNow.Date, ct);
            Console.Out.Write(
                wanted is not null ? SongbookReport.Where([.. wanted(book)], book, parsed.GetValue(json))
                : parsed.GetValue(json) ? SongbookReport.Json(book)
                : SongbookReport.Write(book));
            if (goal is not null && !parsed.GetValue(json))
                Console.Out.WriteLine($"\n{Output.Shown(goal)}  the index to print");
            return 0;
        });
        return command;
    }

    private static Func<Songbook, IEnumerable<ShapeUse>>? ReadWhere(string? text)
    {
        if (text is null)
            return null;
        if (Shape.TryParse(text, out var shape))
            return book => book.WithShape(shape);
        return ChordSymbol.TryRead(text, out var chord) && !chord.IsNone
            ? book => book.WithChord(chord)
            : throw new UsageException($"--where {text}: give a shape from the low string, as in x02210, or a chord symbol, as in G/D.");
    }

    private static string? ReadPage(string? path) =>
        path is null || Endings.Contains(Path.GetExtension(path).ToLowerInvariant())
            ? path
            : throw new UsageException($"--page {path}: the index is written as .pdf or .html; name it so.");
}
