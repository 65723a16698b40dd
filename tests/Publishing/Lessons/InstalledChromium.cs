using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>
/// The Chromium that is installed here, without a window and without sound; nothing is downloaded. Where there is none, tests in it are skipped.
/// </summary>
public sealed class InstalledChromium : IAsyncDisposable
{
    private IPlaywright? playwright;
    private IBrowser? browser;

    public static bool IsThere => Programs.Chromium is not null;

    public IBrowser Browser
    {
        get
        {
            Assert.SkipWhen(browser is null, "No chromium is installed here, and this test works in one.");
            return browser!;
        }
    }

    public async Task StartAsync()
    {
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Programs.Chromium,
            Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--autoplay-policy=no-user-gesture-required", "--mute-audio"],
        });
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null)
            await browser.DisposeAsync();
        playwright?.Dispose();
    }
}
