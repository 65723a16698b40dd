using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>One browser's look at a workbench: what it asked for and what it complained of is kept.</summary>
internal sealed class Visit : IAsyncDisposable
{
    /// <summary>Where pictures of the pages go, for docs/pictures; null where nobody asked for them.</summary>
    private static readonly string? Pictures = Environment.GetEnvironmentVariable("HARKBOOK_PICTURES");

    private readonly IBrowserContext context;

    private Visit(IBrowserContext context) => this.context = context;

    public List<string> Complaints { get; } = [];

    public List<string> Requests { get; } = [];

    public IPage Page { get; private set; } = null!;

    public static async Task<Visit> OpenAsync(IBrowser browser, Uri address, ColorScheme scheme = ColorScheme.Light, int width = 1280, int height = 900)
    {
        var visit = new Visit(await browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ColorScheme = scheme,
            ReducedMotion = ReducedMotion.Reduce, BypassCSP = false }));
        await visit.AddPageAsync(address.AbsoluteUri);
        return visit;
    }

    /// <summary>Another tab of the same browser; it becomes the page.</summary>
    public async Task<IPage> AddPageAsync(string address)
    {
        Page = await context.NewPageAsync();
        Page.SetDefaultTimeout(60_000);
        Page.Request += (_, request) => Requests.Add(request.Url);
        Page.Console += (_, message) => Complaints.AddRange(message.Type is "error" or "warning" ? [message.Text] : []);
        Page.PageError += (_, error) => Complaints.Add(error);
        await Page.GotoAsync(address);
        return Page;
    }

    /// <summary>Opens the shelf's song and waits until its script runs.</summary>
    public async Task LayOpenAsync()
    {
        await PressUntilLeftAsync();
        await Expect(Page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
    }

    /// <summary>A press that falls on the moment at which the shelf is drawn anew can go nowhere; a person presses again.</summary>
    private async Task PressUntilLeftAsync()
    {
        for (var press = 0; press < 3; press++)
        {
            await Page.ClickAsync("tbody a");
            try
            {
                await Page.WaitForURLAsync("**/song/**", new() { Timeout = 20_000, WaitUntil = WaitUntilState.Commit });
                return;
            }
            catch (TimeoutException)
            {
                await Expect(Page.Locator("tbody a")).ToBeVisibleAsync();
            }
        }
    }

    public async Task PictureAsync(string name)
    {
        if (Pictures is not null)
            await Page.ScreenshotAsync(new() { Path = Path.Combine(Pictures, $"workbench-{name}.png") });
    }

    /// <summary>What axe finds against WCAG 2.2 A and AA on the page as it is.</summary>
    public async Task<string[]> FaultsAsync()
    {
        var result = await Page.RunAxe(new AxeRunOptions
        {
            RunOnly = new RunOnlyOptions { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] },
        });
        return [.. result.Violations.SelectMany(v => v.Nodes.Select(n => $"{v.Id} ({v.Impact}): {v.Help}: {n.Html}"))];
    }

    /// <summary>What the browser complained of goes beside the test's result, for when it fails.</summary>
    public async ValueTask DisposeAsync()
    {
        await context.DisposeAsync();
        // A page that closes may still be heard of.
        foreach (var complaint in Complaints.ToArray())
            TestContext.Current.TestOutputHelper?.WriteLine(complaint);
    }
}
