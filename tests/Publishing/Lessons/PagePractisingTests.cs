using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>Rounds, what comes before each, the pace that grows, the click. Bars last a second from 0.2 s on, four beats each.</summary>
public sealed class PagePractisingTests(BrowserFixture fixture) : PageTest(fixture), IClassFixture<BrowserFixture>
{
    /// <summary>Notes down each tone that the page would sound: its pitch in hertz, and when.</summary>
    private const string Tones = """
        window.tones = [];
        window.AudioContext = class {
          currentTime = 0; outputLatency = 0; destination = {};
          resume() {}
          createOscillator() {
            const tone = { frequency: {}, connect: node => node, start: at => tones.push([tone.frequency.value, at]), stop: () => {} };
            return tone;
          }
          createGain() { return { gain: { setValueAtTime() {}, linearRampToValueAtTime() {}, exponentialRampToValueAtTime() {} }, connect: node => node }; }
        };
        """;

    /// <summary>The sound stands still and its starts are counted.</summary>
    private const string Starts = "window.starts = 0; HTMLMediaElement.prototype.play = () => { starts++; return Promise.resolve(); };";

    /// <summary>Timers run only as far as a test says.</summary>
    private static readonly DateTime Noon = new(2026, 1, 2, 12, 0, 0);

    [Fact]
    public async Task ThePaceGoesDownToAQuarterAndKeepsThePitch()
    {
        var page = await OpenAsync();
        await page.FocusAsync("#pace");
        await page.Keyboard.PressAsync("Home");
        Assert.Equal("25%", await page.InnerTextAsync("#paceText"));
        Assert.Equal((0.25, true), (await page.EvaluateAsync<double>("sound.playbackRate"), await page.EvaluateAsync<bool>("sound.preservesPitch")));
        await page.FocusAsync("#play");
        await page.Keyboard.PressAsync("ArrowDown");
        Assert.Equal("25%", await page.InnerTextAsync("#paceText"));
        await page.Keyboard.PressAsync("h");
        Assert.Equal("60 beats a minute", await page.InnerTextAsync("#tempo"));
    }

    /// <summary>One bar is counted before the first round and before each that follows, at the pace chosen; then it plays.</summary>
    [Theory]
    [InlineData(100, 250)]
    [InlineData(50, 500)]
    public async Task ABarIsCountedBeforeEachRound(int pace, int beat)
    {
        var page = await StillAsync();
        await page.EvaluateAsync("pace => setPace(pace)", pace);
        await RoundAsync(page, "count 1");
        for (var round = 1; round <= 2; round++)
        {
            for (var counted = 1; counted <= 4; counted++)
            {
                Assert.Equal((counted + (round - 1) * 4, round - 1), (await CountAsync(page, "tones.length"), await CountAsync(page, "starts")));
                Assert.Equal("count in", await page.InnerTextAsync("#where"));
                Assert.Equal($"{counted}", await page.InnerTextAsync("#beats .lit"));
                Assert.Equal(counted == 1, await page.EvaluateAsync<bool>("tones.at(-1)[0] > tones[1]?.[0] || tones.length === 1"));
                await page.Clock.RunForAsync(beat);
            }
            Assert.Equal(round, await CountAsync(page, "starts"));
            Assert.Equal(0.2, await TimeAsync(page), 0.01);
            await EndRoundAsync(page);
        }
    }

    [Fact]
    public async Task ARestIsKeptBeforeEachRoundAndPauseEndsIt()
    {
        var page = await StillAsync();
        await RoundAsync(page, "rest 2");
        Assert.Equal("again in 2 s", await page.InnerTextAsync("#where"));
        await page.Clock.RunForAsync(1000);
        Assert.Equal(("again in 1 s", 0), (await page.InnerTextAsync("#where"), await CountAsync(page, "starts")));
        await page.Clock.RunForAsync(1000);
        Assert.Equal(1, await CountAsync(page, "starts"));
        await EndRoundAsync(page);
        await page.ClickAsync("#play");
        await page.Clock.RunForAsync(5000);
        Assert.Equal(1, await CountAsync(page, "starts"));
        Assert.Equal(0, await CountAsync(page, "tones.length"));
    }

    [Fact]
    public async Task EachRoundIsFasterUpToThePaceAskedFor()
    {
        var page = await StillAsync();
        await page.FillAsync("#from", "50");
        await page.FillAsync("#to", "62");
        await page.FillAsync("#rounds", "4");
        await page.CheckAsync("#faster");
        Assert.Equal("true", await page.GetAttributeAsync("#again", "aria-pressed"));
        await page.ClickAsync("#play");
        foreach (var pace in new[] { 50, 54, 58, 62, 62 })
        {
            Assert.Equal($"{pace}%", await page.InnerTextAsync("#paceText"));
            Assert.Equal(pace / 100.0, await page.EvaluateAsync<double>("sound.playbackRate"), 0.001);
            await EndRoundAsync(page);
        }
    }

    /// <summary>Half of 88.5 is 44.25, of which one decimal is shown.</summary>
    [Fact]
    public async Task ATempoHasOneDecimalWhereItIsNotWhole()
    {
        var song = LessonSongs.Read("title S\ntempo 88.5\nkey C major\nsection A\nchords | C |\n");
        var page = await OpenAsync(address: await Fixture.AddressOfAsync(song));
        await page.Keyboard.PressAsync("h");
        Assert.Equal("88.5 beats a minute", await page.InnerTextAsync("#tempo"));
        await page.EvaluateAsync("setPace(50)");
        Assert.Equal("44.3 beats a minute", await page.InnerTextAsync("#tempo"));
    }

    [Fact]
    public async Task BarsAreChosenByNumberToo()
    {
        var page = await StillAsync();
        await page.FillAsync("#first", "3");
        await page.FillAsync("#last", "99");
        await page.ClickAsync("#bars");
        Assert.Equal("Going round bars 3 to 4.", await page.InnerTextAsync("#say"));
        Assert.Equal("4", await page.InputValueAsync("#last"));
        Assert.Equal(2.2, await TimeAsync(page), 0.01);
    }

    [Fact]
    public async Task TheClickSoundsOnTheBeatsWhileItIsOn()
    {
        var page = await OpenAsync(before: Tones);
        await page.Keyboard.PressAsync("h");
        await page.CheckAsync("#click");
        await page.ClickAsync("#play");
        await UntilAsync(page, "sound.currentTime > 1.4");
        await page.UncheckAsync("#click");
        var tones = await page.EvaluateAsync<double[][]>("tones");
        Assert.InRange(tones.Length, 5, 15);
        Assert.Equal([true, false, false, false, true], tones.Take(5).Select(t => t[0] > tones[1][0]));
        Assert.All(tones, t => Assert.InRange(t[1], 0, 0.3));
        await page.EvaluateAsync("window.left = sound.currentTime");
        await UntilAsync(page, "sound.currentTime > left + .6 || sound.ended");
        Assert.Equal(tones.Length, await CountAsync(page, "tones.length"));
        Assert.Empty(Complaints);
    }

    [Fact]
    public async Task NothingIsRememberedOutsideThePage()
    {
        var page = await StillAsync();
        await RoundAsync(page, "count 1");
        await page.ReloadAsync();
        Assert.Equal("on", await page.EvaluateAsync<string>("document.getElementById('before').value"));
    }

    private async Task<IPage> StillAsync()
    {
        var page = await OpenAsync(before: Tones + Starts);
        await page.Clock.InstallAsync(new() { TimeDate = Noon });
        await page.Clock.PauseAtAsync(Noon.AddHours(1));
        await page.Keyboard.PressAsync("h");
        return page;
    }

    private static async Task RoundAsync(IPage page, string before)
    {
        await SeekAsync(page, 0.2);
        await page.Keyboard.PressAsync("r");
        await page.SelectOptionAsync("#before", before);
        await page.ClickAsync("#play");
    }

    private static async Task EndRoundAsync(IPage page)
    {
        await page.EvaluateAsync("sound.currentTime = 2.195");
        await UntilAsync(page, "Math.abs(sound.currentTime - .2) < .01");
    }

    private static Task<int> CountAsync(IPage page, string what) => page.EvaluateAsync<int>(what);
}
