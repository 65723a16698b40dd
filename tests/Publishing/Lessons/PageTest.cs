using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>Opens the play-along page and drives it by its sound's own time.</summary>
public abstract class PageTest(BrowserFixture fixture) : IAsyncDisposable
{
    private IBrowserContext? context;

    protected BrowserFixture Fixture => fixture;

    protected List<string> Requests { get; } = [];

    protected List<string> Complaints { get; } = [];

    public async ValueTask DisposeAsync()
    {
        if (context is not null)
            await context.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    /// <param name="before">A script that runs before the page's own.</param>
    protected async Task<IPage> OpenAsync(BrowserNewContextOptions? options = null, string? before = null, string? address = null)
    {
        options ??= new();
        options.Offline = true;
        context = await Fixture.Browser.NewContextAsync(options);
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(15_000);
        if (before is not null)
            await page.AddInitScriptAsync(before);
        page.Request += (_, request) => Requests.Add(request.Url);
        page.Console += (_, message) => Complaints.AddRange(message.Type is "error" or "warning" ? [message.Text] : []);
        page.PageError += (_, error) => Complaints.Add(error);
        await page.GotoAsync(address ?? Fixture.Address);
        if (options.JavaScriptEnabled != false)
            await UntilAsync(page, "document.getElementById('sound').readyState >= 2");
        return page;
    }

    /// <summary>Playwright's own way to wait needs eval, which the page's policy forbids.</summary>
    protected static async Task UntilAsync(IPage page, string condition)
    {
        for (var look = 0; look < 600; look++)
        {
            if (await page.EvaluateAsync<bool>(condition))
                return;
            await Task.Delay(25, TestContext.Current.CancellationToken);
        }
        Assert.Fail($"It never came to this: {condition}");
    }

    protected static async Task SeekAsync(IPage page, double time) => await page.EvaluateAsync(
        "time => new Promise(done => { const sound = document.getElementById('sound'); sound.addEventListener('seeked', done, { once: true }); "
            + "sound.currentTime = time; })", time);

    /// <summary>
    /// Where an element stands, as left, top, width and height in pixels, once it is drawn: found and measured in one step,
    /// since the page may draw it anew between two.
    /// </summary>
    protected static async Task<Box> BoxAsync(IPage page, string selector)
    {
        await UntilAsync(page, $"document.querySelector('{selector}')?.checkVisibility() === true");
        var box = await page.EvaluateAsync<double[]>(
            "selector => { const box = document.querySelector(selector).getBoundingClientRect(); return [box.left, box.top, box.width, box.height]; }",
            selector);
        return new(box[0], box[1], box[2], box[3]);
    }

    protected readonly record struct Box(double X, double Y, double Width, double Height);

    protected static Task<double> TimeAsync(IPage page) => page.EvaluateAsync<double>("document.getElementById('sound').currentTime");

    protected static Task<string> MarkerAsync(IPage page) => page.EvaluateAsync<string>("document.querySelector('.moving').getAttribute('x1')");
}
