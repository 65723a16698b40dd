using System.Diagnostics;
using Harkbook.Workbench.Desk;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>The program itself, ended by force (SIGKILL) as soon as the page shows a decision.</summary>
public sealed class KilledTests(DayFixture fixture) : IClassFixture<DayFixture>, IDisposable
{
    internal static readonly string Host = Path.GetFullPath(Path.Combine(Path.GetDirectoryName(typeof(object).Assembly.Location)!, "..", "..", "..",
        OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet"));

    private readonly SampleBook book = new();
    private readonly List<Process> started = [];

    public void Dispose()
    {
        foreach (var process in started)
        {
            if (!process.HasExited)
                process.Kill();
            process.Dispose();
        }
        book.Dispose();
    }

    [Fact]
    public async Task WhatWasShownAsSavedIsThereAndCanBeTakenBack()
    {
        _ = fixture.Browser;
        foreach (var (name, times) in new[] { ("Am", 1), ("Em", 2) })
        {
            await using var visit = await Visit.OpenAsync(fixture.Browser, await OpenAsync());
            await DecideAsync(visit, name);
            started[^1].Kill();
            await started[^1].WaitForExitAsync(TestContext.Current.CancellationToken);

            var text = await File.ReadAllTextAsync(book.SongPath, TestContext.Current.CancellationToken);
            Assert.Equal(SampleBook.Text.Replace("D?44", name), text);
            Assert.Equal($"bar 3: {name}", SongJournal.Open(book.SongPath, text, TimeProvider.System).LastDone!.What);
            Assert.Equal(times + 1, File.ReadLines(SongJournal.PathOf(book.SongPath)).Count());
        }
        await using var last = await Visit.OpenAsync(fixture.Browser, await OpenAsync());
        await last.LayOpenAsync();
        await last.Page.Keyboard.PressAsync("z");
        await Expect(last.Page.Locator(".followed")).ToContainTextAsync("taken back: bar 3: Em");
        await last.Page.Keyboard.PressAsync("z");
        await Expect(last.Page.Locator(".followed")).ToContainTextAsync("taken back: bar 3: Am");
        Assert.Equal(SampleBook.Text, await File.ReadAllTextAsync(book.SongPath, TestContext.Current.CancellationToken));
    }

    private async Task<Uri> OpenAsync()
    {
        var process = Process.Start(new ProcessStartInfo(Host, [Path.Combine(AppContext.BaseDirectory, "Harkbook.App.dll"), "open", book.Folder,
            "--no-browser"]) { RedirectStandardOutput = true })!;
        started.Add(process);
        var said = await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken);
        return new(said!.Split(' ')[^1]);
    }

    private static async Task DecideAsync(Visit visit, string name)
    {
        await visit.LayOpenAsync();
        var page = visit.Page;
        await page.FocusAsync("rect.bar[data-bar=\"3\"]");
        await page.Keyboard.PressAsync("Enter");
        await page.FillAsync(".chord-bench form input:not([type=checkbox])", name);
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".followed")).ToContainTextAsync($"bar 3: {name}");
    }
}
