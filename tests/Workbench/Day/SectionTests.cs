using Harkbook.Music.Songs;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>Sections: where one begins, by keys and by the mouse, and that one is like another.</summary>
public sealed class SectionTests(DayFixture fixture) : IClassFixture<DayFixture>, IAsyncDisposable
{
    private const string Text = """
        title      Lantern Row
        section    A   ~heard 80%
        chords     | G . . . | C . . . | D . . . |
        section    B   ~heard 70%
        chords     | G . . . | C . . . | D?44 . . . | Em . . . |

        """;

    private readonly OpenedBook book = new();

    public ValueTask DisposeAsync() => book.DisposeAsync();

    [Fact]
    public async Task ABorderMovesAndASectionBecomesLikeAnother()
    {
        await File.WriteAllTextAsync(book.SongPath, Text, TestContext.Current.CancellationToken);
        await using var visit = await book.VisitAsync(fixture.Browser);
        var page = visit.Page;
        await visit.LayOpenAsync();

        await page.Locator("[data-section=\"1\"] .grip").DragToAsync(page.Locator("rect.bar[data-bar=\"3\"]"));
        await Expect(page.Locator(".followed")).ToContainTextAsync("B begins with bar 3");
        Assert.Equal([2, 5], book.Read().Sections.Select(s => s.Bars.Length));
        await page.Keyboard.PressAsync("z");
        await Expect(page.Locator(".followed")).ToContainTextAsync("taken back");
        Assert.Equal(Text, await File.ReadAllTextAsync(book.SongPath, TestContext.Current.CancellationToken));

        await page.FocusAsync("[data-section=\"1\"] button");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".section-bench")).ToBeVisibleAsync();
        await visit.PictureAsync("section");
        Assert.Empty(await visit.FaultsAsync());
        await page.FillAsync(".section-bench input[type=number]", "5");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".followed")).ToContainTextAsync("B begins with bar 5");
        Assert.Equal([4, 3], book.Read().Sections.Select(s => s.Bars.Length));
        Assert.Equal("G C D G C D Em", string.Join(' ', book.Read().Bars.SelectMany(b => b.Chords).Select(c => c.Value.Name)));

        await page.ClickAsync("[data-section=\"1\"] button:has-text(\"begin\")");
        await Expect(page.Locator(".section-bench")).ToContainTextAsync("none has as many bars");
        await page.ClickAsync("text=a bar earlier");
        await Expect(page.Locator(".followed")).ToContainTextAsync("B begins with bar 4");
        Assert.Empty(visit.Complaints);
    }

    [Fact]
    public async Task ASectionIsPlayedLikeAnEarlierOne()
    {
        const string Alike = """
            title      Lantern Row
            section    Verse 1
            chords     | G . . . | C . . . |
            section    B   ~heard 70%
            chords     | G . . . | C . D . |  ~heard 60%

            """;
        await File.WriteAllTextAsync(book.SongPath, Alike, TestContext.Current.CancellationToken);
        await using var visit = await book.VisitAsync(fixture.Browser);
        await visit.Page.ClickAsync("tbody a");
        await visit.Page.ClickAsync("[data-section=\"1\"] button:has-text(\"begin\")");
        await visit.Page.ClickAsync("text=Like that");
        await Expect(visit.Page.Locator(".followed")).ToContainTextAsync("B like Verse 1");
        Assert.Equal(Alike.Split("section    B")[0] + "section    B like Verse 1\n", await File.ReadAllTextAsync(book.SongPath,
            TestContext.Current.CancellationToken));
    }

    /// <summary>The D shape xx0232 mutes its two low strings: on a left-handed neck their crosses stand at the right, and they stay there when the page is
    /// opened again.</summary>
    [Fact]
    public async Task NecksAreLeftHandedForWhoWantsThem()
    {
        await using var visit = await book.VisitAsync(fixture.Browser);
        var right = await LowestFootAsync(visit.Page);
        await visit.Page.Keyboard.PressAsync("?");
        await visit.Page.CheckAsync("#leftHanded");
        await visit.Page.GotoAsync(book.Root.AbsoluteUri);
        var left = await LowestFootAsync(visit.Page);
        Assert.True(right.Low < right.High && left.Low > left.High, $"{right} {left}");
        await visit.PictureAsync("left-handed");
    }

    /// <summary>Where the feet of the muted low string and of the high one, which sounds F♯, stand.</summary>
    private static async Task<(double Low, double High)> LowestFootAsync(IPage page)
    {
        await page.ClickAsync("tbody a");
        await Expect(page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
        await page.FocusAsync("rect.bar[data-bar=\"3\"]");
        await page.Keyboard.PressAsync("Enter");
        var signs = page.Locator(".shapes figure:has-text(\"xx0232\") svg text");
        await Expect(signs.First).ToBeAttachedAsync();
        var notes = await signs.EvaluateAllAsync<double[]>("all => ['–', 'F♯'].map(t => all.find(e => e.textContent === t).getBoundingClientRect().x)");
        return (notes[0], notes[1]);
    }
}
