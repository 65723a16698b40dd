using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>Whoever sits before the page: with the mouse, or with keys alone, which must reach everything by Tab and the arrows.</summary>
internal sealed class Hand(IPage page, bool keysAlone)
{
    private const int MostTabs = 900;

    public IPage Page => page;

    public async Task PressAsync(string what)
    {
        if (!keysAlone)
        {
            await page.Locator(what).First.ClickAsync();
            return;
        }
        await ReachAsync(what);
        await page.Keyboard.PressAsync("Enter");
    }

    public async Task WriteAsync(string where, string text)
    {
        if (!keysAlone)
        {
            await page.Locator(where).First.FillAsync(text);
            return;
        }
        await ReachAsync(where);
        await page.Keyboard.PressAsync("Control+a");
        await page.Keyboard.TypeAsync(text);
    }

    /// <summary>Stands on a bar.</summary>
    public async Task StandAsync(int bar)
    {
        if (!keysAlone)
        {
            await page.Locator($"rect.bar[data-bar=\"{bar}\"]").ClickAsync();
            return;
        }
        await ReachAsync("rect.bar[tabindex=\"0\"]");
        for (var steps = 0; steps < MostTabs && await BarAsync() is var now && now != bar; steps++)
            await page.Keyboard.PressAsync(now < bar ? "ArrowRight" : "ArrowLeft");
        await Expect(page.Locator("rect.bar:focus")).ToHaveAttributeAsync("data-bar", $"{bar}");
    }

    private async Task<int> BarAsync() => int.Parse((await page.Locator("#where").TextContentAsync())!["bar ".Length..]);

    private async Task ReachAsync(string what)
    {
        await Expect(page.Locator(what).First).ToBeVisibleAsync();
        for (var tabs = 0; tabs < MostTabs; tabs++)
        {
            if (await page.Locator(what).First.EvaluateAsync<bool>("e => e === document.activeElement"))
                return;
            await page.Keyboard.PressAsync("Tab");
        }
        Assert.Fail($"{what} isn't reached by Tab.");
    }
}
