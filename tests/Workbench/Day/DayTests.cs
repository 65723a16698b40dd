using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Tests.Lessons;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>
/// A transcriber's day in a browser, by keys alone once the recording is dropped: listen, decide a shape, say the tuning, name a section, defend or take
/// what the check says, publish, close, open again. What is expected of the file is the song file's grammar; of the page, WCAG 2.2 as axe-core checks it.
/// </summary>
public sealed class DayTests(DayFixture fixture) : IClassFixture<DayFixture>, IAsyncDisposable
{
    private readonly TemporaryFolder outer = new();
    private WorkbenchServer? server;

    private string Folder => outer.At("songs");

    private string SongPath => Directory.GetFiles(Folder, "*.hark", SearchOption.AllDirectories).Single();

    public async ValueTask DisposeAsync()
    {
        if (server is not null)
            await server.DisposeAsync();
        outer.Dispose();
    }

    [Fact]
    public async Task ARecordingBecomesALesson()
    {
        await using var visit = await BeginAsync();
        var page = visit.Page;
        Assert.Empty(await visit.FaultsAsync());

        await page.SetInputFilesAsync("#recordings", fixture.Recording);
        await page.ClickAsync("text=Lay it open");
        await Expect(page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
        await Expect(page.Locator(".doubt-line")).ToBeVisibleAsync();
        Assert.Empty(await visit.FaultsAsync());
        await page.ClickAsync("text=I know my way");
        await visit.PictureAsync("drafted");

        await ListensAsync(page);
        await DecidesAChordAsync(visit);
        await SaysTheTuningAsync(page);
        await NamesASectionAsync(page);
        await TapsASungLineAsync(visit);
        await AnswersADoubtAsync(page);
        await PublishesAsync(visit);

        await page.ClickAsync("text=All songs");
        await Expect(page.Locator("tbody a")).ToBeVisibleAsync();
        await visit.PictureAsync("shelf");
        Assert.Empty(visit.Complaints);
        var decided = await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken);
        await server!.DisposeAsync();
        server = await WorkbenchServer.StartAsync(new(Folder), TestContext.Current.CancellationToken);
        await using var next = await Visit.OpenAsync(fixture.Browser, server.Address);
        await next.LayOpenAsync();
        await next.Page.Keyboard.PressAsync("z");
        await Expect(next.Page.Locator(".followed")).ToContainTextAsync("taken back");
        Assert.NotEqual(decided, await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));
        Assert.All(visit.Requests.Concat(next.Requests), r => Assert.Matches("^(http|ws)://127\\.0\\.0\\.1:", r));
    }

    [Fact]
    public async Task TwoTabsAndAnEditorAgree()
    {
        await using var visit = await BeginAsync(withSong: true);
        await visit.LayOpenAsync();
        var (one, two) = (visit.Page, await visit.AddPageAsync(visit.Page.Url));
        await Expect(two.Locator("rect.bar").First).ToBeVisibleAsync();

        await two.ClickAsync(".fact:has-text(\"key\")");
        await two.FillAsync(".song-top .bench input", "E minor");
        await two.ClickAsync(".song-top .bench button.main");
        await Expect(one.Locator(".fact:has-text(\"key\")")).ToContainTextAsync("E minor");
        Assert.Contains("key        E minor", await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));

        await File.WriteAllTextAsync(SongPath, SampleBook.Text.Replace("Lantern Row", "Lantern Lane"), TestContext.Current.CancellationToken);
        await Expect(one.Locator("h1")).ToHaveTextAsync("Lantern Lane");
        await Expect(two.Locator("h1")).ToHaveTextAsync("Lantern Lane");
        await one.Keyboard.PressAsync("z");
        await Expect(two.Locator("h1")).ToHaveTextAsync("Lantern Row");
        await Expect(two.Locator(".fact:has-text(\"key\")")).ToContainTextAsync("E minor");
    }

    /// <summary>On a busy machine a page may be left before its script has come.</summary>
    [Fact]
    public async Task APageMayBeLeftWhileItsScriptIsOnItsWay()
    {
        await using var visit = await BeginAsync(withSong: true);
        var page = visit.Page;
        var (asked, send) = (new TaskCompletionSource(), new TaskCompletionSource());
        await page.RouteAsync("**/assets/shelf.js", async route =>
        {
            asked.TrySetResult();
            await send.Task;
            await route.ContinueAsync();
        });
        await page.ReloadAsync();
        await asked.Task;
        await page.ClickAsync("tbody a");
        await Expect(page.Locator("#sheet")).ToBeVisibleAsync();
        send.SetResult();
        await Expect(page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".chord-bench")).ToBeVisibleAsync();
        Assert.Empty(visit.Complaints);
    }

    [Fact]
    public async Task ARecordingMayBeChosenBeforeTheScriptHasCome()
    {
        await using var visit = await BeginAsync();
        var page = visit.Page;
        var send = new TaskCompletionSource();
        await page.RouteAsync("**/assets/shelf.js", async route =>
        {
            await send.Task;
            await route.ContinueAsync();
        });
        await page.ReloadAsync();
        await page.SetInputFilesAsync("#recordings", fixture.Recording);
        await page.RunAndWaitForRequestAsync(() =>
        {
            send.SetResult();
            return Task.CompletedTask;
        }, request => request.Url.Contains("/recordings?name=", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 1280)]
    [InlineData(ColorScheme.Light, 820)]
    public async Task EveryPageIsForEveryone(ColorScheme scheme, int width)
    {
        await using var visit = await BeginAsync(withSong: true, scheme, width);
        Assert.Empty(await visit.FaultsAsync());
        await visit.LayOpenAsync();
        Assert.Empty(await visit.FaultsAsync());
        foreach (var key in new[] { "Enter", "?", "w", "t", "p" })
        {
            await visit.Page.Keyboard.PressAsync(key);
            await Expect(visit.Page.Locator(".bench").First).ToBeVisibleAsync();
            Assert.Empty(await visit.FaultsAsync());
        }
        await visit.PictureAsync($"all-{scheme}-{width}".ToLowerInvariant());
        Assert.True(await visit.Page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), "The page is wider than the window.");
    }

    [Fact]
    public async Task StrokesAreDecidedByPressing()
    {
        await using var visit = await BeginAsync(withSong: true);
        var page = visit.Page;
        await visit.LayOpenAsync();
        await page.Keyboard.PressAsync("Enter");
        await page.ClickAsync(".stroke[aria-label^=\"1:\"]");
        for (var press = 0; press < 2; press++)
            await page.ClickAsync(".stroke[aria-label^=\"&:\"] >> nth=1");
        await Expect(page.Locator(".stroke[aria-label=\"&: up\"]")).ToHaveCountAsync(1);
        await page.ClickAsync("text=and of all bars of Verse 1");
        await Expect(page.Locator(".followed")).ToContainTextAsync("strokes of Verse 1");

        var bars = Read().Bars.ToList();
        Assert.All(bars, b => Assert.Equal(["0 Down", "3/2 Up"], b.Strums.Select(s => $"{s.Start} {s.Value}")));
        Assert.StartsWith(SampleBook.Text.Split("section")[0], await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));
    }

    /// <summary>What a screen reader is told of a row, as Playwright writes accessibility trees.</summary>
    [Fact]
    public async Task ARowIsToldInWords()
    {
        await using var visit = await BeginAsync(withSong: true);
        await visit.LayOpenAsync();
        await Expect(visit.Page.Locator("#row-0")).ToMatchAriaSnapshotAsync("""
            - group "Bars from 1":
              - button "bar 1, G major, heard"
              - button "bar 2, C major, decided, then G major, decided"
              - button "bar 3, D major, heard, 44% sure"
              - button "bar 4, G major, decided"
              - button "Change bar 1, G major, heard"
              - button "Change bar 2, C major, decided"
              - button "Change bar 2, G major, decided"
              - button "Change bar 3, D major, heard, 44% sure"
              - button "Change bar 4, G major, decided"
            """);
    }

    private async Task<Visit> BeginAsync(bool withSong = false, ColorScheme scheme = ColorScheme.Light, int width = 1280)
    {
        Directory.CreateDirectory(Folder);
        if (withSong)
            await File.WriteAllTextAsync(Path.Combine(Folder, "lantern-row.hark"), SampleBook.Text, TestContext.Current.CancellationToken);
        server = await WorkbenchServer.StartAsync(new(Folder), TestContext.Current.CancellationToken);
        var visit = await Visit.OpenAsync(fixture.Browser, server.Address, scheme, width);
        await Expect(visit.Page.Locator("main.shelf h1, header h1")).ToBeVisibleAsync();
        return visit;
    }

    /// <summary>Round two bars, slowly, the claims beside the record.</summary>
    private static async Task ListensAsync(IPage page)
    {
        await page.FocusAsync("rect.bar[data-bar=\"1\"]");
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        await page.Keyboard.PressAsync("g");
        await Expect(page.Locator("#round")).ToContainTextAsync("Going round bars 1 to 2");
        for (var press = 0; press < 6; press++)
            await page.Keyboard.PressAsync("-");
        await Expect(page.Locator("#paceSaid")).ToHaveTextAsync("70%");
        await page.Keyboard.PressAsync("h");
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#play")).ToContainTextAsync("Stop");
        await Expect(page.Locator("#where")).ToHaveTextAsync("bar 2");
        await Expect(page.Locator("#where")).ToHaveTextAsync("bar 1");
        await Expect(page.Locator("line.moment[visibility=visible]")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Space");
        await page.Keyboard.PressAsync("g");
        await Expect(page.Locator("#earTrouble")).ToBeEmptyAsync();
    }

    private async Task DecidesAChordAsync(Visit visit)
    {
        var page = visit.Page;
        await page.FocusAsync("rect.bar[data-bar=\"2\"]");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".chord-bench figure").First).ToBeVisibleAsync();
        Assert.Empty(await visit.FaultsAsync());
        await visit.PictureAsync("chord");
        await page.FillAsync(".chord-bench form input:not([type=checkbox])", "x32013");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".followed")).ToContainTextAsync("bar 2: C as x32013");
        await visit.PictureAsync("decided");
        var chord = Read().Bars.ElementAt(1).Chords[0];
        Assert.Equal(("x32013", Standing.Decided), ($"{chord.Value.Shape!.WithoutFingers()}", chord.Standing));
        await page.Keyboard.PressAsync("z");
        await Expect(page.Locator(".followed")).ToContainTextAsync("taken back");
        Assert.NotEqual(Standing.Decided, Read().Bars.ElementAt(1).Chords[0].Standing);
        await page.Keyboard.PressAsync("x");
        await Expect(page.Locator(".followed")).ToContainTextAsync("made again");
        Assert.Equal(chord, Read().Bars.ElementAt(1).Chords[0]);
    }

    private async Task SaysTheTuningAsync(IPage page)
    {
        await page.ClickAsync(".fact:has-text(\"tuning\")");
        await page.FillAsync(".song-top .bench input", "standard");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".fact:has-text(\"tuning\") .how")).ToHaveTextAsync("decided");
        Assert.Equal(Standing.Decided, Read().Tuning.Standing);
        Assert.Equal("x32013", $"{Read().Bars.ElementAt(1).Chords[0].Value.Shape!.WithoutFingers()}");
    }

    private async Task NamesASectionAsync(IPage page)
    {
        await page.ClickAsync(".section-top button");
        await page.FillAsync(".section-top input >> nth=0", "Verse 1");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h2").First).ToHaveTextAsync("Verse 1");
        Assert.Equal(("Verse 1", Standing.Decided), (Read().Sections[0].Name, Read().Sections[0].Standing));
    }

    /// <summary>Words typed, and each syllable tapped while the record plays.</summary>
    private async Task TapsASungLineAsync(Visit visit)
    {
        var page = visit.Page;
        await page.Keyboard.PressAsync("t");
        await page.ClickAsync("#tapBench .choices button:has-text(\"syllables\")");
        await page.FillAsync("#tapBench textarea", "Slow the fer-ry");
        await page.ClickAsync("#tapBench h3");
        await Expect(page.Locator("#tapBench p:has-text(\"Next:\")")).ToContainTextAsync("Slow");
        await page.Keyboard.PressAsync("Space");
        foreach (var (next, taps) in new[] { ("the", 1), ("fer-", 2), ("ry", 3), ("rhythm alone", 4) })
        {
            await page.WaitForTimeoutAsync(250);
            await page.Keyboard.PressAsync(taps % 2 == 0 ? "j" : "f");
            await Expect(page.Locator("#tapBench p:has-text(\"Next:\")")).ToContainTextAsync(next);
        }
        await page.Keyboard.PressAsync("Space");
        Assert.Empty(await visit.FaultsAsync());
        await visit.PictureAsync("taps");
        await page.ClickAsync("text=Lay them on the bars");
        await Expect(page.Locator(".followed")).ToContainTextAsync("4 syllables tapped");
        var sung = Read().Bars.SelectMany(b => b.Sung).ToList();
        Assert.Equal(["Slow", "the", "fer-", "ry"], sung.Select(s => s.Value));
        Assert.All(sung, s => Assert.Equal(Standing.Decided, s.Standing));
        await page.Keyboard.PressAsync("Escape");
    }

    /// <summary>Whatever the check says of this hearing, or that nothing is left.</summary>
    private static async Task AnswersADoubtAsync(IPage page)
    {
        await Expect(page.Locator(".doubt-line")).ToBeVisibleAsync();
        await Expect(page.Locator(".saved")).ToHaveTextAsync("Saved");
        if (await page.Locator(".doubt-line:has-text(\"No doubt is left\")").CountAsync() > 0)
            return;
        await page.Keyboard.PressAsync("d");
        await Expect(page.Locator(".doubt-line .words")).ToContainTextAsync(new Regex("(Doubt|Contradicted) 1 of"));
        await page.Keyboard.PressAsync("Space");
    }

    private static async Task PublishesAsync(Visit visit)
    {
        await visit.Page.Keyboard.PressAsync("Escape");
        await visit.Page.Keyboard.PressAsync("p");
        await visit.Page.ClickAsync("text=Make the lesson");
        await Expect(visit.Page.Locator(".files a:has-text(\"sheet.pdf\")")).ToBeVisibleAsync();
        var address = await visit.Page.Locator(".files a:has-text(\"play-along.html\")").GetAttributeAsync("href");
        var answer = await visit.Page.APIRequest.GetAsync(new Uri(new Uri(visit.Page.Url), "/" + address).AbsoluteUri);
        Assert.Equal(200, answer.Status);
        Assert.Contains("sandbox", answer.Headers["content-security-policy"]);
        await visit.PictureAsync("lesson");
    }

    private Song Read() => SongText.Parse(File.ReadAllText(SongPath), SongPath).Song!;
}
