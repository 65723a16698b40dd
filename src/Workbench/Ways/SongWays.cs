using Harkbook.Audio.Recordings;
using Harkbook.Jobs.Files;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Workbench.Books;
using Harkbook.Workbench.Desk;
using Harkbook.Workbench.Ear;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.StaticFiles;

namespace Harkbook.Workbench.Ways;

/// <summary>What the pages load and send besides their socket: recordings out and in, sounds, the files of a lesson.</summary>
public static class SongWays
{
    private const int MostBars = 64;

    /// <summary>A lesson's page has its own scripts; it runs apart from the workbench and can't ask it for anything.</summary>
    private const string Apart = "sandbox allow-scripts allow-downloads; default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; "
        + "img-src data: 'self'; font-src data:; media-src data: blob: 'self'";

    public static void Map(IEndpointRouteBuilder ways)
    {
        ways.MapPost("/recordings", TakeAsync);
        ways.MapGet("/sounds/record", RecordAsync);
        ways.MapGet("/sounds/own", OwnAsync);
        ways.MapGet("/sounds/shape", ShapeAsync);
        ways.MapGet("/lessons/{**path}", Lesson);
    }

    private static async Task<IResult> TakeAsync(HttpRequest request, string name, Intakes intakes, CancellationToken ct)
    {
        try
        {
            await intakes.TakeAsync(name, request.Body, ct);
            return Results.NoContent();
        }
        catch (Exception e) when (e is UserException or IOException or UnauthorizedAccessException)
        {
            return Results.Text(e.Message, statusCode: StatusCodes.Status400BadRequest);
        }
    }

    private static Task<IResult> RecordAsync(string song, string? of, int? cents, Bookcase books, CancellationToken ct) => OfAsync(books, song, async desk =>
    {
        if (desk.Folder.RecordingPath is not { } named || books.Inside.Judge(named) is not { } path || !File.Exists(path))
            return Results.NotFound();
        if (!RecordSound.Has(of, cents ?? 0))
            return Results.BadRequest();
        var (file, type) = await RecordSound.OfAsync(path, of, cents ?? 0, ct);
        return Results.File(file, type, enableRangeProcessing: true);
    });

    private static Task<IResult> OwnAsync(string song, int first, int last, Bookcase books, CancellationToken ct) => OfAsync(books, song, async desk =>
    {
        var (view, bars) = (desk.View, desk.View.Song.Bars.Count());
        return first < 1 || last < first || last > bars || last - first >= MostBars ? Results.BadRequest()
            : Results.File(await OwnSound.OfBarsAsync(view.Song, view.Document.Text, first, last, ct), "audio/wav", enableRangeProcessing: true);
    });

    private static Task<IResult> ShapeAsync(string song, string frets, Bookcase books, CancellationToken ct) => OfAsync(books, song, async desk =>
        Shape.TryParse(frets, out var shape) && shape.Frets.Length == desk.View.Song.Tuning.Value.Count && shape.SoundingStrings > 0
            ? Results.File(await OwnSound.OfShapeAsync(desk.View.Song, shape, ct), "audio/wav") : Results.BadRequest());

    /// <summary>A file of some song's lesson: "slow-ferry/lesson/sheet.pdf".</summary>
    private static IResult Lesson(string path, Bookcase books, HttpResponse response)
    {
        if (!path.Split('/').Contains("lesson") || books.Inside.Judge(path) is not { } file || !File.Exists(file))
            return Results.NotFound();
        response.Headers.ContentSecurityPolicy = Apart;
        return Results.File(file, new FileExtensionContentTypeProvider().TryGetContentType(file, out var type) ? type : "application/octet-stream",
            enableRangeProcessing: true);
    }

    private static async Task<IResult> OfAsync(Bookcase books, string song, Func<SongDesk, Task<IResult>> result)
    {
        try
        {
            return books.Desk(song) is { } desk ? await result(desk) : Results.NotFound();
        }
        catch (Exception e) when (e is UserException or RecordingException or IOException)
        {
            return Results.Text(e.Message, statusCode: StatusCodes.Status400BadRequest);
        }
    }
}
