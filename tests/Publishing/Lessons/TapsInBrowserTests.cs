using System.Globalization;
using Harkbook.Music.Analysis.Rhythm;
using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>The page to tap on, in a browser. Bars last a second from 0.2 s on, four beats each; taps are made where the sound stands still.</summary>
public sealed class TapsInBrowserTests(BrowserFixture fixture) : IClassFixture<BrowserFixture>, IAsyncDisposable
{
    private readonly List<string> requests = [];
    private readonly List<string> complaints = [];
    private IBrowserContext? context;

    public async ValueTask DisposeAsync()
    {
        if (context is not null)
            await context.DisposeAsync();
    }

    [Fact]
    public async Task ATapGivesItsTimeInTheRecordAndTakesTheNextSyllable()
    {
        var page = await OpenAsync();
        await TapAtAsync(page, "f", 0.2, 0.45, 0.733);
        await TapAtAsync(page, "j", 1.25);
        Assert.Equal(["0:00.200 Down", "0:00.450 to", "0:00.733 the", "0:01.250 quay"], await LinesAsync(page));
        Assert.Equal("x", await page.InnerTextAsync("#next"));
        Assert.Empty(complaints);
        Assert.Equal(fixture.TapsAddress, requests[0]);
        Assert.All(requests.Skip(1),
            address => Assert.True(address.StartsWith("blob:", StringComparison.Ordinal) || address.StartsWith("data:", StringComparison.Ordinal), address));
    }

    [Fact]
    public async Task WordsAreSplitAtHyphensAndAChosenOneIsNext()
    {
        var page = await OpenAsync();
        await page.FillAsync("#words", "Slow fer-ry,\n- a-a-way |home");
        Assert.Equal(["Slow", "fer-", "ry,", "a-", "a-", "way", "home"], await page.Locator("#slots button").AllInnerTextsAsync());
        await page.ClickAsync("#slots button:nth-child(6)");
        await TapAtAsync(page, "f", 1);
        await page.ClickAsync("#after");
        Assert.Equal(["0:01.000 way"], await LinesAsync(page));
        Assert.Equal("x", await page.InnerTextAsync("#next"));
    }

    [Fact]
    public async Task GoingBackTapsAnewAndTakingBackIsExact()
    {
        var page = await OpenAsync();
        await TapAtAsync(page, "f", 0.2, 0.45, 0.7, 1.2);
        var before = await LinesAsync(page);
        await page.ClickAsync("#slots button:nth-child(2)");
        await TapAtAsync(page, "f", 0.5, 0.8);
        Assert.Equal(["0:00.200 Down", "0:00.500 to", "0:00.800 the", "0:01.200 quay"], await LinesAsync(page));
        await page.Keyboard.PressAsync("Backspace");
        await page.Keyboard.PressAsync("Backspace");
        Assert.Equal(before, await LinesAsync(page));
    }

    [Fact]
    public async Task ATapCanBeMovedAndRemoved()
    {
        var page = await OpenAsync();
        await TapAtAsync(page, "f", 0.2, 0.45);
        await page.ClickAsync(".mark >> nth=0");
        await page.ClickAsync("#later");
        Assert.Equal("Chosen: Down at 0:00.210", await page.InnerTextAsync("#chosen"));
        await page.ClickAsync("#remove");
        Assert.Equal(["0:00.450 to"], await LinesAsync(page));
        Assert.True(await page.IsDisabledAsync("#earlier"));
    }

    [Theory]
    [InlineData("bar", "|2 |3 |4")]
    [InlineData("beat", "|2 |2.2 |2.3")]
    public async Task BarLinesAndBeatsAreCountedFromTheBarThatIsTouched(string kind, string expected)
    {
        var page = await OpenAsync();
        await page.CheckAsync($"[value={kind}]");
        await page.ClickAsync("button[aria-label='Go to bar 2']");
        Assert.Equal("bar 2", await page.InnerTextAsync("#next"));
        Assert.Equal(0.2, await page.EvaluateAsync<double>("document.getElementById('sound').currentTime"), 0.001);
        // Setting the time by script is no seek of the player's, so the count goes on.
        await TapAtAsync(page, "f", 1.3, 2.3, 3.3);
        Assert.Equal(expected.Split(' ').Zip(["0:01.300", "0:02.300", "0:03.300"], (what, time) => $"{time} {what}"), await LinesAsync(page));
        var read = TappedTimes.Read((await page.InputValueAsync("#times")).Split('\n'), out _)!;
        Assert.Null(TappedBars.Problem(LessonSongs.FourBars, read.Beats));
        Assert.Equal(3, read.Beats.Length);
    }

    /// <summary>The media clock tells: a tap lies between what it showed before the key and after, though the song ran at a quarter of its pace.</summary>
    [Fact]
    public async Task AtASlowPaceTimesAreTheRecordsAndTheDelayIsThePaces()
    {
        var page = await OpenAsync();
        await page.FillAsync("#pace", "25");
        Assert.True(await page.EvaluateAsync<bool>("document.getElementById('sound').preservesPitch"));
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "document.getElementById('sound').currentTime > .3");
        var before = await TimeAsync(page);
        await page.Keyboard.PressAsync("Space");
        var after = await TimeAsync(page);
        await page.Keyboard.PressAsync("Escape");
        var tapped = await OnlyTimeAsync(page);
        Assert.InRange(tapped, before - 0.01, after + 0.01);
        await page.ClickAsync(".delay summary");
        await page.FillAsync("#delay", "200");
        Assert.Equal(tapped - 0.05, await OnlyTimeAsync(page), 0.0015);
    }

    [Fact]
    public async Task TheDelayIsTheMiddleOfTapsAgainstClicks()
    {
        var page = await OpenAsync();
        await page.ClickAsync(".delay summary");
        await page.ClickAsync("#measure");
        await page.EvaluateAsync("document.getElementById('clicks').pause()");
        foreach (var (click, late) in new[] { 130, 110, 120, 310, 125, 115, 120, -60 }.Select((late, i) => (i + 1, late)))
        {
            await SeekAsync(page, "clicks", click * 0.8 + late / 1000.0);
            await page.Keyboard.PressAsync("f");
        }
        Assert.InRange(int.Parse(await page.InputValueAsync("#delay"), CultureInfo.InvariantCulture), 119, 121);
        Assert.Contains("after the clicks", await page.InnerTextAsync("#say"));
        Assert.Empty(await LinesAsync(page));
    }

    [Fact]
    public async Task AFingerOnThePadTapsOnceAndAHeldKeyToo()
    {
        var page = await OpenAsync(new() { HasTouch = true, ViewportSize = new() { Width = 390, Height = 844 } });
        await page.TapAsync("#tap");
        Assert.Single(await LinesAsync(page));
        await SeekAsync(page, "sound", 1);
        await page.Keyboard.DownAsync("f");
        await page.Keyboard.DownAsync("f");
        Assert.Equal(2, (await LinesAsync(page)).Length);
    }

    [Fact]
    public async Task TheTimesAreSavedUnderTheirName()
    {
        var page = await OpenAsync();
        await TapAtAsync(page, "f", 0.5);
        var download = await page.RunAndWaitForDownloadAsync(() => page.ClickAsync("#save"));
        Assert.Equal("taps.txt", download.SuggestedFilename);
        Assert.Equal(await page.InputValueAsync("#times"), await File.ReadAllTextAsync(await download.PathAsync(), TestContext.Current.CancellationToken));
        Assert.Contains("harkbook taps \"songs/four bars\" taps.txt", await page.InnerTextAsync(".hand"));
    }

    /// <summary>WCAG 2.2, 1.4.10: no sideways scrolling down to 320 pixels; 2.5.8: targets of 24 at least. While it plays the pad is the largest thing on a
    /// phone.</summary>
    [Theory]
    [InlineData(320, 700)]
    [InlineData(390, 844)]
    [InlineData(844, 390)]
    [InlineData(1200, 900)]
    public async Task ItFitsTheScreen(int width, int height)
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = width, Height = height } });
        await TapAtAsync(page, "f", 0.2, 0.45, 1.17);
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollWidth"), 1, width);
        Assert.True(await page.EvaluateAsync<bool>(
            "[...document.querySelectorAll('button')].every(b => !b.offsetParent || (b.offsetHeight >= 24 && b.offsetWidth >= 24))"));
        await page.EvaluateAsync("document.body.classList.add('playing')");
        Assert.True(await page.EvaluateAsync<bool>("[...document.querySelectorAll('.playing .bars, #tap, #play, #undo')].every(e => { const r = "
            + "e.getBoundingClientRect(); return r.height > 40 && r.top >= 0 && r.bottom <= innerHeight + 1 && r.right <= innerWidth + 1; })"));
        Assert.InRange(await page.EvaluateAsync<double>("document.getElementById('tap').offsetHeight"), height * 0.2, height);
    }

    /// <summary>Long words in a bar of a second, as quick as a singer gets.</summary>
    [Theory]
    [InlineData(390, 844)]
    [InlineData(1200, 900)]
    public async Task SyllablesDoNotOverlap(int width, int height)
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = width, Height = height } });
        await page.FillAsync("#words", "walked long straight- ened through thoughts and scratched stretched home walked");
        await TapAtAsync(page, "f", 0.2, 0.3, 0.42, 0.5, 0.61, 0.7, 0.8, 0.95, 1.1, 1.2, 1.3);
        Assert.True(await page.EvaluateAsync<bool>("""
            (boxes => boxes.every((a, i) => boxes.slice(i + 1).every(b => a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top)))
            ([...document.querySelectorAll('.mark span, .number')].map(e => { const range = document.createRange(); range.selectNodeContents(e); return range.getBoundingClientRect(); }))
            """));
        Assert.True(await page.EvaluateAsync<bool>("(b => document.elementFromPoint(b.left + b.width / 2, b.top + b.height / 2).closest('#tap') !== "
            + "null)(document.getElementById('tap').getBoundingClientRect())"));
        Assert.Equal("isolate", await page.EvaluateAsync<string>("getComputedStyle(document.getElementById('bars')).isolation"));
    }

    [Theory]
    [InlineData("[aria-label='Go to bar 2']")]
    [InlineData("#on")]
    [InlineData("[value=beat]")]
    public async Task SpacePlaysAfterAClick(string clicked)
    {
        var page = await OpenAsync();
        await page.ClickAsync(clicked);
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "!document.getElementById('sound').paused");
        Assert.Empty(await LinesAsync(page));
    }

    /// <summary>Where the sound stands still, a space is for whatever has the focus.</summary>
    [Theory]
    [InlineData(".delay summary", "document.querySelector('.delay').open")]
    [InlineData("[value=bar]", "document.querySelector('[value=bar]').checked")]
    [InlineData("#tap", "document.getElementById('times').value !== ''")]
    public async Task SpaceWorksTheControlThatHasTheFocus(string control, string expected)
    {
        var page = await OpenAsync();
        await page.FocusAsync(control);
        await page.Keyboard.PressAsync("Space");
        Assert.True(await page.EvaluateAsync<bool>(expected));
        Assert.True(await page.EvaluateAsync<bool>("document.getElementById('sound').paused"));
    }

    [Fact]
    public async Task EveryControlHasAName()
    {
        var page = await OpenAsync();
        await TapAtAsync(page, "f", 0.2);
        var snapshot = await page.Locator("main").AriaSnapshotAsync();
        Assert.Contains("button \"Down at 0:00.200\"", snapshot);
        Assert.Contains("slider \"Pace", snapshot);
        Assert.DoesNotMatch("button\\s*$", snapshot);
    }

    private async Task<IPage> OpenAsync(BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.Offline = true;
        context = await fixture.Browser.NewContextAsync(options);
        var page = await context.NewPageAsync();
        page.SetDefaultTimeout(15_000);
        page.Request += (_, request) => requests.Add(request.Url);
        page.Console += (_, message) => complaints.AddRange(message.Type is "error" or "warning" ? [message.Text] : []);
        page.PageError += (_, error) => complaints.Add(error);
        await page.GotoAsync(fixture.TapsAddress);
        await UntilAsync(page, "document.getElementById('sound').readyState >= 2");
        return page;
    }

    private static async Task TapAtAsync(IPage page, string key, params double[] times)
    {
        foreach (var time in times)
        {
            await SeekAsync(page, "sound", time);
            await page.Keyboard.PressAsync(key);
        }
    }

    private static async Task<string[]> LinesAsync(IPage page) =>
        [.. (await page.InputValueAsync("#times")).Split('\n').Where(l => l.Length > 0 && l[0] != ';')];

    private static async Task<double> OnlyTimeAsync(IPage page) => TappedTimes.Read(await LinesAsync(page), out _)!.Syllables.Single().At.Value;

    private static Task<double> TimeAsync(IPage page) => page.EvaluateAsync<double>("document.getElementById('sound').currentTime");

    private static async Task UntilAsync(IPage page, string condition)
    {
        for (var look = 0; look < 600; look++)
        {
            if (await page.EvaluateAsync<bool>(condition))
                return;
            await Task.Delay(25, TestContext.Current.CancellationToken);
        }
        Assert.Fail($"It never came to this: {condition}");
    }

    private static async Task SeekAsync(IPage page, string id, double time) => await page.EvaluateAsync(
        "([id, time]) => new Promise(done => { const sound = document.getElementById(id); sound.addEventListener('seeked', () => requestAnimationFrame(done), "
            + "{ once: true }); sound.currentTime = time; })", new object[]
        {
            id, time,
        });
}
