using Harkbook.Music.Songs;
using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed class PageInBrowserTests(BrowserFixture fixture) : PageTest(fixture), IClassFixture<BrowserFixture>
{
    [Fact]
    public async Task ItPlaysWithoutANetworkAndWithoutAComplaint()
    {
        var page = await OpenAsync();
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "document.getElementById('sound').currentTime > 1.3");
        await UntilAsync(page, "document.body.dataset.chord === 'A7sus4'");
        await page.Keyboard.PressAsync("Space");
        Assert.True(await page.EvaluateAsync<bool>("document.getElementById('sound').paused"));
        Assert.Empty(Complaints);
        Assert.Equal(Fixture.Address, Requests[0]);
        Assert.All(Requests.Skip(1),
            address => Assert.True(address.StartsWith("blob:", StringComparison.Ordinal) || address.StartsWith("data:", StringComparison.Ordinal), address));
    }

    /// <summary>Bars last a second from 0.2 s on, and each has its chord and the next one's diagram.</summary>
    [Theory]
    [InlineData(0.05, "", "count in", "next in 1 beat")]
    [InlineData(0.3, "D", "Out & <home>, bar 1 of all 4", "next in 4 beats")]
    [InlineData(1.25, "G/D", "Out & <home>, bar 2 of all 4", "next in 4 beats")]
    [InlineData(3.1, "A7sus4", "Back, bar 3 of all 4", "next in 1 beat")]
    [InlineData(3.3, "F#m7b5", "Back, bar 4 of all 4", "the last chord")]
    [InlineData(4.3, "F#m7b5", "the end", "the last chord")]
    public async Task ItShowsWhatTheClockSays(double time, string chord, string where, string until)
    {
        var page = await OpenAsync();
        await SeekAsync(page, time);
        Assert.Equal(chord, await page.EvaluateAsync<string>("document.body.dataset.chord"));
        Assert.Equal(where, await page.InnerTextAsync("#where"));
        Assert.Equal(until, (await page.InnerTextAsync("#until")).Replace("\n", " ", StringComparison.Ordinal));
        var holds = time is > 0.2 and < 4.2;
        Assert.Equal(holds ? 1 : 0, await page.Locator("#now svg").CountAsync());
        if (holds)
            Assert.StartsWith(chord + ":", await page.Locator("#now svg title").TextContentAsync());
    }

    /// <summary>A hand-out keeps the song's bar numbers, so it says from which to which it goes.</summary>
    [Fact]
    public async Task AHandOutSaysWhichOfTheSongsBarsItHas()
    {
        var page = await OpenAsync(address: await Fixture.AddressOfAsync(LessonSongs.FourBars, Passage.Of(3, 4)));
        await SeekAsync(page, 2.3);
        Assert.Equal("Back, bar 3 of 3 to 4", await page.InnerTextAsync("#where"));
    }

    /// <summary>Six eighths of a third of a second make the 2 s before the music, though a third has no whole milliseconds.</summary>
    [Fact]
    public async Task ACompoundBarIsCountedInToo()
    {
        var song = LessonSongs.Read("title T\nmeter 6/8\ncount eighths\ntempo 60\nkey C major\nshape C x32010\nsection A\nanchors 1 = 0:02\nchords | C |\n");
        var page = await OpenAsync(address: await Fixture.AddressOfAsync(song));
        Assert.Equal("count in", await page.InnerTextAsync("#where"));
        Assert.Equal("1", await page.InnerTextAsync("#beats .lit"));
    }

    [Fact]
    public async Task KeysMoveThroughBarsAndChangeThePace()
    {
        var page = await OpenAsync();
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.Equal(0.2, await TimeAsync(page), 0.01);
        await page.Keyboard.PressAsync("ArrowRight");
        Assert.Equal(1.2, await TimeAsync(page), 0.01);
        await page.Keyboard.PressAsync("ArrowLeft");
        Assert.Equal(0.2, await TimeAsync(page), 0.01);
        await page.Keyboard.PressAsync("ArrowDown");
        Assert.Equal("95%", await page.InnerTextAsync("#paceText"));
        Assert.Equal(0.95, await page.EvaluateAsync<double>("document.getElementById('sound').playbackRate"), 0.001);
        Assert.True(await page.EvaluateAsync<bool>("document.getElementById('sound').preservesPitch"));
    }

    [Fact]
    public async Task SpaceOnAButtonPressesThatButton()
    {
        var page = await OpenAsync();
        await page.FocusAsync("[data-bar='2']");
        await page.Keyboard.PressAsync("Space");
        Assert.Equal(2.2, await TimeAsync(page), 0.01);
        Assert.True(await page.EvaluateAsync<bool>("document.getElementById('sound').paused"));
    }

    /// <summary>A click leaves the space bar to the player: it plays from the bar that was clicked, and pauses there.</summary>
    [Theory]
    [InlineData("[data-bar='2']")]
    [InlineData("#on")]
    public async Task SpacePlaysAfterAClick(string clicked)
    {
        var page = await OpenAsync();
        await SeekAsync(page, 1.3);
        await page.ClickAsync(clicked);
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "sound.currentTime > 2.3");
        await page.Keyboard.PressAsync("Space");
        Assert.True(await page.EvaluateAsync<bool>("sound.paused && sound.currentTime > 2.25"));
    }

    /// <summary>Bars of a second; the chord ends with bar 1, and in bar 2 nothing is played.</summary>
    [Theory]
    [InlineData("| Dm | _ | Dm |", "", "silence")]
    [InlineData("| Dm | _ | Dm |", "strum | d d d d | d d d d | d d d d |", "no chord")]
    [InlineData("| _ . | _ | Dm |", "", "silence")]
    public async Task ASilenceIsCalledSo(string chords, string strum, string held)
    {
        var song = LessonSongs.Read($"title S\nmeter 4/4\ntempo 240\nkey D minor\nshape Dm xx0231\nsection A\nchords {chords}\n{strum}\n");
        var page = await OpenAsync(address: await Fixture.AddressOfAsync(song));
        await SeekAsync(page, 1.3);
        Assert.Equal(held, await page.InnerTextAsync("#held"));
        Assert.Equal(0, await page.Locator("#now svg").CountAsync());
    }

    [Fact]
    public async Task ASectionGoesRound()
    {
        var page = await OpenAsync();
        await SeekAsync(page, 3.4);
        await page.Keyboard.PressAsync("r");
        Assert.Equal("true", await page.GetAttributeAsync("#again", "aria-pressed"));
        Assert.Equal("Going round bars 3 to 4.", await page.InnerTextAsync("#say"));
        await page.EvaluateAsync("window.turns = 0; let before = 0; (function look() { const now = document.getElementById('sound').currentTime; if (now < "
            + "before - .5) window.turns++; before = now; requestAnimationFrame(look); })()");
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "window.turns === 1");
        Assert.InRange(await TimeAsync(page), 2.15, 4.2);
    }

    [Fact]
    public async Task TwoTouchesChooseBarsToGoRound()
    {
        var page = await OpenAsync();
        await page.ClickAsync("#how");
        await page.ClickAsync("#choose");
        await page.ClickAsync("[data-bar='2']");
        await page.ClickAsync("[data-bar='1']");
        Assert.Equal(2, await page.Locator(".bars .round").CountAsync());
        Assert.Equal(1.2, await TimeAsync(page), 0.01);
        await page.ClickAsync("[data-bar='0']");
        await page.ClickAsync("[data-bar='3']", new() { Modifiers = [KeyboardModifier.Shift] });
        Assert.Equal(4, await page.Locator(".bars .round").CountAsync());
    }

    [Fact]
    public async Task ARefusedStartIsSaidAndBreaksNothing()
    {
        var page = await OpenAsync();
        await page.EvaluateAsync("() => { HTMLMediaElement.prototype.play = () => Promise.reject(new DOMException('no', 'NotAllowedError')); }");
        await page.ClickAsync("#play");
        await UntilAsync(page, "document.getElementById('say').textContent.length > 0");
        Assert.StartsWith("Play", await page.InnerTextAsync("#play"));
        Assert.Empty(Complaints);
    }

    /// <summary>WCAG 2.2, 1.4.10 asks for no sideways scrolling down to 320 pixels; 2.5.8 for targets of 24 at least.</summary>
    [Theory]
    [InlineData(320, 700)]
    [InlineData(390, 844)]
    [InlineData(1440, 900)]
    public async Task ItFitsTheScreen(int width, int height)
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = width, Height = height } });
        await SeekAsync(page, 2.5);
        await page.ClickAsync("#how");
        Assert.InRange(await page.EvaluateAsync<int>("document.documentElement.scrollWidth"), 1, width);
        Assert.True(await page.EvaluateAsync<bool>("[...document.querySelectorAll('button, input, select')].filter(b => b.checkVisibility()).every(b => "
            + "b.getBoundingClientRect().height >= 16 && b.closest('button, label').getBoundingClientRect().height >= 24)"));
    }

    [Fact]
    public async Task WithLessMotionTheMarkerStepsFromBeatToBeat()
    {
        var page = await OpenAsync(new() { ReducedMotion = ReducedMotion.Reduce });
        await SeekAsync(page, 0.5);
        var first = await MarkerAsync(page);
        await SeekAsync(page, 0.65);
        Assert.Equal(first, await MarkerAsync(page));
        await SeekAsync(page, 0.75);
        Assert.NotEqual(first, await MarkerAsync(page));
    }

    [Fact]
    public async Task WithoutScriptsTheChordsCanBeRead()
    {
        var page = await OpenAsync(new() { JavaScriptEnabled = false });
        Assert.Contains("scripts are off", await page.InnerTextAsync("noscript"));
        Assert.Contains("F♯m7♭5", await page.InnerTextAsync("[data-bar='3']"));
    }

    [Fact]
    public async Task EveryControlHasAName()
    {
        var page = await OpenAsync();
        await page.Keyboard.PressAsync("h");
        var snapshot = await page.Locator("main").AriaSnapshotAsync();
        foreach (var name in new[]
        {
            "button \"bar 4, F♯m7♭5\"", "button \"Bar back\"", "button \"How to practise\" [expanded]", "slider \"Pace", "checkbox \"Faster with each round\"",
            "spinbutton \"the first at", "combobox \"before each round", "checkbox \"Click on each beat", "slider \"Instruments\"",
        })
            Assert.Contains(name, snapshot);
        Assert.DoesNotMatch("button\\s*$", snapshot);
    }
}
