using System.Diagnostics;
using System.Globalization;
using Microsoft.Playwright;

namespace Harkbook.Bench.Browsing;

/// <summary>How fast the workbench is under a person's hands: measured in Chromium by the page's own clock, on a song of ten minutes.</summary>
internal sealed class BrowserSpeed : IAsyncDisposable
{
    private const int Others = 9, Decisions = 8;
    private readonly string book = Directory.CreateTempSubdirectory("harkbook-browsing").FullName;
    private readonly Process program;
    private readonly List<(string What, string Result, string Aim)> rows = [];

    private BrowserSpeed(string chromium)
    {
        LongSong.Write(book, Others);
        Chromium = chromium;
        program = Process.Start(new ProcessStartInfo(Environment.ProcessPath!, [Path.Combine(AppContext.BaseDirectory, "Harkbook.App.dll"), "open", book,
            "--no-browser"]) { RedirectStandardOutput = true })!;
    }

    private string Chromium { get; }

    /// <summary>Prints a table in Markdown.</summary>
    /// <param name="chromium">Where Chromium is.</param>
    public static async Task<int> WriteAsync(string chromium, TextWriter output)
    {
        await using var speed = new BrowserSpeed(chromium);
        await speed.MeasureAsync();
        output.WriteLine("| what | measured | aim |\n|---|---|---|");
        foreach (var (what, result, aim) in speed.rows)
            output.WriteLine($"| {what} | {result} | {aim} |");
        return 0;
    }

    public async ValueTask DisposeAsync()
    {
        program.Kill();
        await program.WaitForExitAsync();
        program.Dispose();
        Directory.Delete(book, recursive: true);
    }

    private async Task MeasureAsync()
    {
        var address = (await program.StandardOutput.ReadLineAsync())!.Split(' ')[^1];
        using var playwright = await Playwright.CreateAsync();
        await using var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Chromium,
            Args = ["--no-sandbox", "--autoplay-policy=no-user-gesture-required", "--mute-audio"],
        });
        var page = await browser.NewPageAsync(new() { ViewportSize = new() { Width = 1280, Height = 900 } });
        page.SetDefaultTimeout(600_000);
        await page.AddInitScriptAsync(scriptPath: Path.Combine(AppContext.BaseDirectory, "Browsing", "browsing.js"));
        await page.GotoAsync(address);
        await page.WaitForSelectorAsync("tbody a");
        Add("first paint of the shelf, ten songs", await page.EvaluateAsync<double>("browsing.paint()"), "");
        Add("a song of ten minutes laid open", await page.EvaluateAsync<double>("browsing.open('long/song')"), "");
        // The first time a recording is listened to isn't what is measured.
        await page.EvaluateAsync("browsing.heard()");
        await MovesAsync(page);
        await DecidesAsync(page);
        await page.Keyboard.PressAsync(" ");
        AddSpread("the line of the moment against the sound", await page.EvaluateAsync<double[]>("browsing.apart(400)"), "30 ms");
        await page.Keyboard.PressAsync(" ");
        await RemembersAsync(page, address);
    }

    private async Task MovesAsync(IPage page)
    {
        AddSpread("frames while scrolling through it in 20 s", await page.EvaluateAsync<double[]>("browsing.scroll(1200)"), "16.7 ms");
        foreach (var bars in new[] { 8, 1, 4 })
            AddSpread($"frames while zooming to {bars} bars a row", await page.EvaluateAsync<double[]>($"browsing.zoom('{bars}')"), "16.7 ms");
    }

    private async Task DecidesAsync(IPage page)
    {
        var times = new List<double[]>();
        await page.EvaluateAsync("scrollTo(0, 0)");
        for (var i = 0; i < Decisions; i++)
        {
            await page.FocusAsync("rect.bar[data-bar=\"3\"]");
            await page.Keyboard.PressAsync("Enter");
            await page.FillAsync(".chord-bench form input:not([type=checkbox])", i % 2 == 0 ? "Am" : "Em");
            await page.EvaluateAsync("browsing.watch(0)");
            await page.Keyboard.PressAsync("Enter");
            times.Add(await page.EvaluateAsync<double[]>("browsing.decided"));
        }
        AddSpread("a chord decided to its row redrawn", [.. times.Select(t => t[0])], "50 ms");
        AddSpread("… to everything else read again", [.. times.Select(t => t[1])], "300 ms");
        AddSpread("… to every claim weighed", [.. times.Select(t => t[2])], "");
    }

    private async Task RemembersAsync(IPage page, string address)
    {
        Add("server memory with the long song open", Memory(), "");
        for (var i = 1; i <= Others; i++)
        {
            await page.GotoAsync($"{new Uri(address).GetLeftPart(UriPartial.Authority)}/song/short-{i}/song");
            await page.EvaluateAsync("browsing.heard()");
        }
        Add($"server memory with {Others + 1} songs open", Memory(), "");
    }

    private string Memory()
    {
        program.Refresh();
        return string.Create(CultureInfo.InvariantCulture, $"{program.WorkingSet64 / 1e6:0} MB");
    }

    private void Add(string what, double milliseconds, string aim) => Add(what, Milliseconds(milliseconds), aim);

    private void Add(string what, string result, string aim)
    {
        Console.Error.WriteLine($"{what}: {result}");
        rows.Add((what, result, aim));
    }

    private void AddSpread(string what, double[] milliseconds, string aim)
    {
        Array.Sort(milliseconds, (a, b) => Math.Abs(a).CompareTo(Math.Abs(b)));
        string At(double share) => Milliseconds(milliseconds[(int)(share * (milliseconds.Length - 1))]);
        Add(what, $"half within {At(0.5)}, 95% within {At(0.95)}, all {milliseconds.Length} within {At(1)}", aim);
    }

    private static string Milliseconds(double value) => string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(value):0.0} ms");
}
