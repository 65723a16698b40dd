using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Units;
using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>A play-along page of four bars, and an installed Chromium to open it in. Nothing is downloaded.</summary>
public sealed class BrowserFixture : IAsyncLifetime
{
    private readonly TemporaryFolder folder = new();
    private readonly InstalledChromium chromium = new();

    public const double Length = 4.5;

    public LessonTimeline Timeline { get; } = new(LessonSongs.FourBars);

    public IBrowser Browser => chromium.Browser;

    public string Address => new Uri(folder.At("play-along.html")).AbsoluteUri;

    /// <summary>The page of another song, over the same few seconds of sound.</summary>
    /// <param name="passage">The bars to hand out; without, all of them.</param>
    public async Task<string> AddressOfAsync(Song song, Passage? passage = null)
    {
        var path = folder.At($"{Guid.NewGuid():N}.html");
        var timeline = passage is { } part ? new LessonTimeline(song, part, Seconds.FromSeconds(0)) : new(song);
        await File.WriteAllTextAsync(path, PlayAlongPage.Write(timeline, await File.ReadAllBytesAsync(folder.At("sound.wav")), "audio/wav", Length));
        return new Uri(path).AbsoluteUri;
    }

    /// <summary>The page to tap on, of the same song.</summary>
    public string TapsAddress => new Uri(folder.At("taps.html")).AbsoluteUri;

    public async ValueTask InitializeAsync()
    {
        if (!InstalledChromium.IsThere)
            return;
        var sound = await File.ReadAllBytesAsync(LessonSongs.Sound(folder.Path, Length));
        await File.WriteAllTextAsync(folder.At("play-along.html"), PlayAlongPage.Write(Timeline, sound, "audio/wav", Length));
        await File.WriteAllTextAsync(folder.At("taps.html"), TapsPage.Write(Timeline, sound, "audio/wav", Length, "songs/four bars", "taps.txt"));
        await chromium.StartAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await chromium.DisposeAsync();
        folder.Dispose();
    }
}
