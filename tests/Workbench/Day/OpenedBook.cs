using Harkbook.Music.Songs;
using Microsoft.Playwright;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>The sample songbook behind a workbench of its own.</summary>
internal sealed class OpenedBook : IAsyncDisposable
{
    private readonly SampleBook book = new();
    private WorkbenchServer? server;

    public string SongPath => book.SongPath;

    public string Outside => book.Outside;

    /// <summary>The workbench's address without its token.</summary>
    public Uri Root => server!.Root;

    /// <summary>Starts the workbench and goes there.</summary>
    public async Task<Visit> VisitAsync(IBrowser browser, ColorScheme scheme = ColorScheme.Light, int width = 1280)
    {
        server = await WorkbenchServer.StartAsync(new(book.Folder), TestContext.Current.CancellationToken);
        return await Visit.OpenAsync(browser, server.Address, scheme, width);
    }

    public Song Read() => SongText.Parse(File.ReadAllText(SongPath), SongPath).Song!;

    public async ValueTask DisposeAsync()
    {
        if (server is not null)
            await server.DisposeAsync();
        book.Dispose();
    }
}
