using Harkbook.Audio.Recordings.Formats;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Tests.Lessons;
using Harkbook.Sounding;
using Microsoft.Playwright;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>A recording of eight bars that our own strings play, an empty songbook, and an installed Chromium to work in. Nothing is downloaded.</summary>
public sealed class DayFixture : IAsyncLifetime
{
    private const string Played = """
        title Kiln Road
        tempo 112
        key G major
        shape G 320003
        shape C x32010
        shape D xx0232
        shape Em 022000
        section Verse
        chords | G | C | G | D | Em | C | D | G |
        strum throughout | d . d u . u d . |
        """;

    private readonly TemporaryFolder folder = new();
    private readonly InstalledChromium chromium = new();

    public IBrowser Browser => chromium.Browser;

    public string Recording => folder.At("kiln road.wav");

    public async ValueTask InitializeAsync()
    {
        if (!InstalledChromium.IsThere)
            return;
        WaveFile.Write(Recording, Audition.Render(SongText.Parse(Played, "kiln.hark").Song!, new(), TestContext.Current.CancellationToken));
        // Pages are waited for as long as a busy machine may take.
        Assertions.SetDefaultExpectTimeout(90_000);
        await chromium.StartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await chromium.DisposeAsync();
        folder.Dispose();
    }
}
