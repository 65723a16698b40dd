using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Writing;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

public sealed class NoteTests(DayFixture fixture) : IClassFixture<DayFixture>, IAsyncDisposable
{
    private readonly OpenedBook book = new();

    public ValueTask DisposeAsync() => book.DisposeAsync();

    [Fact]
    public async Task ARiffIsEnteredByKeysAlone()
    {
        await using var visit = await OpenAsync();
        var page = visit.Page;
        await page.FocusAsync("rect.bar[data-bar=\"2\"]");
        await page.Keyboard.PressAsync("n");
        await Expect(page.Locator(".note-cell:focus")).ToHaveAttributeAsync("aria-label", "E4, beat 1: nothing");

        await TypeAsync(page, "3", "3");
        await TypeAsync(page, "ArrowRight ArrowRight 5 h", "h5");
        await TypeAsync(page, "ArrowDown 1 2 b", "12b13");
        await TypeAsync(page, "r", "12b13r12");
        await TypeAsync(page, "l", "12b13r12ring");
        await page.Keyboard.PressAsync("Shift+ArrowRight");
        await Expect(page.Locator(".note-cell.at")).ToHaveAttributeAsync("aria-label", new Regex("^B3, beat 2 and: 12b13r12ring"));
        Assert.Equal(["0 E4 3", "1 E4 h5", "3/2 B3 12b13r12ring"], Picked(2));
        var text = await File.ReadAllTextAsync(book.SongPath, TestContext.Current.CancellationToken);
        Assert.Equal(SampleBook.Text.Replace("section    Verse 2", Block + "section    Verse 2"), text);

        // The same pitch on the string below: B3 at 12 is G3 at 16.
        await TypeAsync(page, "r b l Shift+ArrowDown", "16");
        Assert.Equal("3/2 G3 16", Picked(2)[^1]);
        await page.Keyboard.PressAsync("Delete");
        await Expect(page.Locator(".note-cell.at b")).ToHaveCountAsync(0);
        await page.Keyboard.PressAsync("z");
        await Expect(page.Locator(".followed")).ToContainTextAsync("taken back");
        await Expect(page.Locator(".note-cell b")).ToHaveCountAsync(3);

        for (var step = 0; step < 5; step++)
            await page.Keyboard.PressAsync("ArrowRight");
        await Expect(page.Locator("#bench-title")).ToHaveTextAsync("Bar 3, note by note");
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.Locator(".note-grid")).ToHaveCountAsync(0);
        await Expect(page.Locator("rect.bar:focus")).ToHaveAttributeAsync("data-bar", "3");
        Assert.Empty(visit.Complaints);
    }

    [Fact]
    public async Task ARiffIsEnteredWithTheMouse()
    {
        await using var visit = await OpenAsync();
        var page = visit.Page;
        await page.ClickAsync("#notes");
        await page.ClickAsync(".note-cell[aria-label^=\"G3, beat 2:\"]");
        await page.ClickAsync(".note-offers button:has-text(\"4 B3\")");
        await page.ClickAsync(".note-signs button:has-text(\"vibrato\")");
        await Expect(page.Locator(".note-cell.at")).ToHaveTextAsync("4~");
        await page.Locator(".note-cell.at").DragToAsync(page.Locator(".note-cell[aria-label^=\"G3, beat 4:\"]"));
        await Expect(page.Locator(".note-cell.at")).ToHaveAttributeAsync("aria-label", "G3, beat 4: 4~, vibrato");
        await page.ClickAsync(".note-cell[aria-label^=\"D3, beat 1:\"]");
        await Expect(page.Locator(".note-cell.at")).ToHaveAttributeAsync("aria-label", "D3, beat 1: nothing");
        await page.FillAsync(".note-bench form input", "3h5:m");
        await page.ClickAsync("text=Put it here");
        await Expect(page.Locator(".note-cell.at")).ToHaveTextAsync("3h5:m");
        Assert.Equal(["0 D3 3h5:m", "3 G3 4~"], Picked(1));
        await page.FillAsync(".note-bench form input", "h77");
        await page.ClickAsync("text=Put it here");
        await Expect(page.Locator(".followed.refused")).ToContainTextAsync("frets run from 0 to 36");
        Assert.Equal(["0 D3 3h5:m", "3 G3 4~"], Picked(1));
        await visit.PictureAsync("notes");
        Assert.Empty(await visit.FaultsAsync());
    }

    /// <summary>On a harmonica in G, blow 4 is the G of the fourth octave's next (G5 counts from C4): the key's own note (common practice).</summary>
    [Fact]
    public async Task BreathAndTuneAreEnteredInTheSameManner()
    {
        await using var visit = await OpenAsync();
        var page = visit.Page;
        await page.ClickAsync("#notes");
        await page.ClickAsync("text=with a harmonica");
        await page.FillAsync(".note-offers input", "G");
        await page.Keyboard.PressAsync("Enter");
        await page.ClickAsync(".note-cell[aria-label^=\"harp, beat 1:\"]");
        await TypeAsync(page, "4", "+4");
        await TypeAsync(page, "ArrowRight ArrowRight 3 d b", "-3'");
        await page.ClickAsync("text=with the tune");
        await page.ClickAsync(".note-cell[aria-label^=\"tune, beat 1:\"]");
        await TypeAsync(page, "f", "F#4");
        await TypeAsync(page, "ArrowRight ArrowRight b s", "sB4");
        await TypeAsync(page, "Shift+ArrowDown", "sBb4");
        Assert.Equal(["0 +4", "1 -3'"], book.Read().Bars.First().Harp.Select(h => $"{h.Start} {h.Value}"));
        Assert.Equal(["0 F#4", "1 sBb4"], book.Read().Bars.First().Tune.Select(h => $"{h.Start} {h.Value}"));
        Assert.Equal("G richter", $"{book.Read().Harp!.Value}");
        await visit.PictureAsync("breath");
    }

    [Fact]
    public async Task WhatStandsInTheWayIsSaid()
    {
        await using var visit = await OpenAsync();
        await visit.Page.Keyboard.PressAsync("n");
        await TypeAsync(visit.Page, "5", "5");
        await TypeAsync(visit.Page, "ArrowRight 7 Shift+ArrowLeft", "7");
        await Expect(visit.Page.Locator(".note-bench .trouble")).ToContainTextAsync("Something stands there already");
        await TypeAsync(visit.Page, "Shift+ArrowUp", "7");
        await Expect(visit.Page.Locator(".note-bench .trouble")).ToContainTextAsync("A note moves within its bar");
        Assert.Equal(["0 E4 5", "1/2 E4 7"], Picked(1));
    }

    [Theory]
    [InlineData(ColorScheme.Light, 1280)]
    [InlineData(ColorScheme.Dark, 820)]
    public async Task TheGridIsForEveryone(ColorScheme scheme, int width)
    {
        await using var visit = await OpenAsync(scheme, width);
        await visit.Page.Keyboard.PressAsync("n");
        await TypeAsync(visit.Page, "7", "7");
        await visit.PictureAsync($"notes-{scheme}-{width}".ToLowerInvariant());
        Assert.Empty(await visit.FaultsAsync());
        Assert.True(await visit.Page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= innerWidth"), "The page is wider than the window.");
    }

    private async Task<Visit> OpenAsync(ColorScheme scheme = ColorScheme.Light, int width = 1280)
    {
        var visit = await book.VisitAsync(fixture.Browser, scheme, width);
        await visit.LayOpenAsync();
        if (await visit.Page.Locator("#stepsOff").IsVisibleAsync())
            await visit.Page.ClickAsync("#stepsOff");
        return visit;
    }

    /// <summary>Presses keys and waits until the place where one stands says so.</summary>
    private static async Task TypeAsync(IPage page, string keys, string stands)
    {
        await Expect(page.Locator(".note-cell:focus")).ToHaveCountAsync(1);
        foreach (var key in keys.Split(' '))
        {
            var before = await page.Locator(".note-cell.at").TextContentAsync();
            await page.Keyboard.PressAsync(key);
            if (!key.StartsWith("Arrow", StringComparison.Ordinal) && !key.StartsWith("Shift", StringComparison.Ordinal))
                await Expect(page.Locator(".note-cell.at")).Not.ToHaveTextAsync(before ?? "");
        }
        await Expect(page.Locator(".note-cell.at")).ToHaveTextAsync(stands);
        await Expect(page.Locator(".note-cell.at:focus")).ToHaveCountAsync(1);
    }

    private const string Block = """
        pick from 2
          E4        | 3 h5 . . |
          B3        | . .,12b13r12ring . . |
          G3        | . . . . |
          D3        | . . . . |
          A2        | . . . . |
          E2        | . . . . |

        """;

    private string[] Picked(int bar) => [.. book.Read().Bars.ElementAt(bar - 1).Picked.Select(p =>
        $"{p.Start} {book.Read().Tuning.Value.Strings[p.Value.StringIndex]} {PickedText.Of(p.Value)}")];
}
