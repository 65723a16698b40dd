using Harkbook.Music.Songs;
using Microsoft.Playwright;

namespace Harkbook.Publishing.Tests.Lessons;

/// <summary>A phone on a stand, upright and sideways: while it plays there is nothing but what is read, and none of it is hidden.</summary>
public sealed class PageOnAPhoneTests(BrowserFixture fixture) : PageTest(fixture), IClassFixture<BrowserFixture>
{
    /// <summary>The sound stands still, so that boxes can be measured while the page plays.</summary>
    private const string StandStill = "HTMLMediaElement.prototype.play = () => Promise.resolve();";

    private const string Boxes = """
        () => {
          const box = e => { const b = e.getBoundingClientRect(); return [b.left, b.top, b.right, b.bottom]; };
          const all = selector => [...document.querySelectorAll(selector)].filter(e => e.checkVisibility()).map(box);
          return {
            parts: [...all('.hold'), ...all('.coming'), ...all('.pulse'), ...all('.line')],
            read: [...all('#now > *'), ...all('#next > *'), ...all('#beats li'), ...all('.line svg'), ...all('.bar small')],
            rows: [...document.querySelectorAll('.line > div')].map(row => row.querySelectorAll('.bar').length),
            buttons: all('.desk button'),
            desk: box(document.querySelector('.desk')),
            others: all('header, .form, footer').length,
            height: document.documentElement.scrollHeight,
          };
        }
        """;

    public static TheoryData<string, int, int> Screens
    {
        get
        {
            var data = new TheoryData<string, int, int>();
            foreach (var title in LessonSongs.Hard.Keys)
            {
                data.Add(title, 390, 844);
                data.Add(title, 844, 390);
            }
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Screens))]
    public async Task WhilePlayingNothingIsHiddenAndOneRowOfButtonsStandsBelow(string title, int width, int height)
    {
        var page = await PlayAsync(LessonSongs.Hard[title], width, height);
        var seen = await page.EvaluateAsync<Seen>(Boxes);
        Assert.Equal(0, seen.Others);
        Assert.InRange(seen.Height, 1, height);
        Assert.Single(seen.Buttons.Select(b => b[1]).Distinct());
        Assert.Equal(5, seen.Buttons.Length);
        Assert.All(seen.Buttons, b => Assert.True(b[3] - b[1] >= 44 && b[2] - b[0] >= 40, "A button is too small for a finger."));
        Assert.InRange(seen.Desk[3], 0, height);
        Assert.All(seen.Read, b => Assert.True(b[0] >= 0 && b[1] >= 0 && b[2] <= width + 0.5 && b[3] <= seen.Desk[1] + 0.5,
            $"{string.Join(' ', b)} is not in sight."));
        for (var i = 0; i < seen.Parts.Length; i++)
        {
            for (var j = i + 1; j < seen.Parts.Length; j++)
                Assert.False(Overlap(seen.Parts[i], seen.Parts[j]), $"Parts {i} and {j} overlap.");
        }
        Assert.True(seen.Rows[1] > 0 || seen.Rows[0] == LessonSongs.Hard[title].Bars.Count(), "The row that is played and the next are in sight.");
    }

    [Theory]
    [InlineData(390, 844)]
    [InlineData(844, 390)]
    public async Task DiagramsOfThisChordAndTheNextAreInSightAndTheTitleComesBack(int width, int height)
    {
        var page = await PlayAsync(LessonSongs.FourBars, width, height);
        await SeekAsync(page, 1.3);
        foreach (var diagram in new[] { "#now svg", "#next svg" })
        {
            var box = await BoxAsync(page, diagram);
            Assert.True(box.Height >= 90 && box.Y >= 0 && box.Y + box.Height <= height, $"{diagram} is {box.Width} by {box.Height} at {box.Y}.");
        }
        Assert.False(await page.IsVisibleAsync("h1"));
        await page.ClickAsync("#play");
        var title = await BoxAsync(page, "h1");
        Assert.InRange(title.Y, 0, height - title.Height);
        Assert.True(await page.IsVisibleAsync(".facts"));
    }

    /// <summary>At rest a phone on its side keeps four fifths of its height for what is played: title and facts stand in one strip.</summary>
    [Fact]
    public async Task OnItsSideTitleAndFactsAreOneStrip()
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = 844, Height = 390 } });
        var (title, facts) = (await BoxAsync(page, "h1"), await BoxAsync(page, ".facts"));
        Assert.True(facts.Y < title.Y + title.Height && facts.X > title.X + title.Width, "The facts stand beside the title.");
        Assert.InRange((await BoxAsync(page, "header")).Height, 1, 390 / 5.0);
    }

    /// <summary>The line is painted right over the ground, so that every arrow, word and digit lies over it.</summary>
    [Theory]
    [InlineData(390, 844)]
    [InlineData(844, 390)]
    [InlineData(1200, 800)]
    public async Task TheMovingLineIsThinAndCoversNothing(int width, int height)
    {
        var page = await PlayAsync(LessonSongs.FourBars, width, height);
        await SeekAsync(page, 0.21);
        Assert.Equal("rect", await page.EvaluateAsync<string>("document.querySelector('.moving').previousElementSibling.tagName"));
        Assert.Equal(0, await page.EvaluateAsync<int>("[...document.querySelector('.moving').parentNode.children].filter(e => "
            + "e.compareDocumentPosition(document.querySelector('.moving')) & 4 && !/rect|title/.test(e.tagName)).length"));
        Assert.Equal("2px", await page.EvaluateAsync<string>("getComputedStyle(document.querySelector('.moving')).strokeWidth"));
        Assert.Equal("non-scaling-stroke", await page.EvaluateAsync<string>("getComputedStyle(document.querySelector('.moving')).vectorEffect"));
        Assert.Equal(1, await page.Locator(".moving").CountAsync());
    }

    [Theory]
    [InlineData(390, 844, "1 2 3 4")]
    [InlineData(844, 390, "1 1 3 3")]
    [InlineData(1200, 900, "1 1 3 3")]
    public async Task TheRowThatIsPlayedStandsOnTopAndTheNextBelow(int width, int height, string tops)
    {
        var page = await PlayAsync(LessonSongs.FourBars, width, height);
        var firsts = tops.Split(' ');
        for (var bar = 0; bar < 4; bar++)
        {
            await SeekAsync(page, bar + 0.3);
            var next = firsts.FirstOrDefault(f => int.Parse(f) > int.Parse(firsts[bar]), "");
            Assert.Equal((firsts[bar], next), (await NumberAsync(page, 0), await NumberAsync(page, 1)));
            Assert.Equal(1, await page.Locator(".line > div:first-child .moving").CountAsync());
        }
    }

    /// <summary>Pausing brings the title back, and no bar goes to another row for it.</summary>
    [Theory]
    [MemberData(nameof(Screens))]
    public async Task RowsFillTheWidthAndHoldTheSameBarsAtRest(string title, int width, int height)
    {
        var page = await PlayAsync(LessonSongs.Hard[title], width, height);
        const string Bars = "[...document.querySelectorAll('.line .bar > small')].map(s => s.firstChild.textContent).join()";
        const string Filled = "Math.max(...rows.map(row => widthOf(row, widthIndex))) * "
            + "parseFloat(document.getElementById('line').style.getPropertyValue('--scale')) / document.getElementById('line').clientWidth";
        var playing = await page.EvaluateAsync<string>(Bars);
        Assert.InRange(await page.EvaluateAsync<double>(Filled), 0.75, 1);
        await page.ClickAsync("#play");
        await UntilAsync(page, "!document.body.classList.contains('playing')");
        Assert.Equal(playing, await page.EvaluateAsync<string>(Bars));
    }

    [Theory]
    [InlineData(390, 844)]
    [InlineData(844, 390)]
    [InlineData(1200, 900)]
    public async Task HowToTuneStandsInItsBoxBeforeTheMusic(int width, int height)
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = width, Height = height } });
        Assert.Equal("get in tune", await page.InnerTextAsync("#held"));
        Assert.True(await page.EvaluateAsync<bool>("""
            [...document.querySelectorAll('#held, .tuning li')].every(e => {
              const range = document.createRange(); range.selectNodeContents(e);
              const words = range.getBoundingClientRect(), box = document.querySelector('.hold').getBoundingClientRect();
              return words.left >= box.left && words.right <= box.right && words.top >= box.top && words.bottom <= box.bottom;
            })
            """));
    }

    /// <summary>Common practice, from memory: print of 9 pixels is the least that is read on a phone.</summary>
    [Fact]
    public async Task UprightTheSmallestWordsOfAPlainSongAreReadable()
    {
        var page = await PlayAsync(LessonSongs.FourBars, 390, 844);
        Assert.InRange(await page.EvaluateAsync<double>("6.6 * parseFloat(document.getElementById('line').style.getPropertyValue('--scale'))"), 9, 20);
    }

    [Fact]
    public async Task InARoundTheRowAfterTheLastIsTheFirst()
    {
        var page = await PlayAsync(LessonSongs.FourBars, 390, 844);
        await page.Keyboard.PressAsync("r");
        await SeekAsync(page, 1.3);
        Assert.Equal(("2", "1"), (await NumberAsync(page, 0), await NumberAsync(page, 1)));
    }

    [Fact]
    public async Task AChangedMeterStandsOverItsBar()
    {
        var page = await PlayAsync(LessonSongs.TwoFour, 390, 844);
        Assert.Equal("2/4", await page.Locator(".bar small b").TextContentAsync());
    }

    /// <summary>Screen Wake Lock API, W3C: a lock of type "screen" is asked for and released.</summary>
    [Fact]
    public async Task TheScreenStaysAwakeWhilePlaying()
    {
        var page = await OpenAsync(before: StandStill + """
            window.locks = [];
            Object.defineProperty(navigator, "wakeLock", { value: { request: async kind => { locks.push(kind); return { release: async () => { locks.push("released"); } }; } } });
            """);
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "locks.join() === 'screen'");
        await page.Keyboard.PressAsync("Space");
        await UntilAsync(page, "locks.join() === 'screen,released'");
    }

    private async Task<IPage> PlayAsync(Song song, int width, int height)
    {
        var page = await OpenAsync(new() { ViewportSize = new() { Width = width, Height = height } }, StandStill, await Fixture.AddressOfAsync(song));
        await page.ClickAsync("#play");
        return page;
    }

    private static async Task<string> NumberAsync(IPage page, int place) =>
        await page.EvaluateAsync<string>("place => document.querySelectorAll('.line > div')[place].querySelector('small')?.firstChild.textContent ?? ''",
            place);

    private static bool Overlap(double[] a, double[] b) =>
        a[0] + 0.5 < b[2] && b[0] + 0.5 < a[2] && a[1] + 0.5 < b[3] && b[1] + 0.5 < a[3];

    /// <summary>Boxes as left, top, right, bottom in pixels.</summary>
    private sealed class Seen
    {
        public double[][] Parts { get; set; } = [];

        public double[][] Read { get; set; } = [];

        public int[] Rows { get; set; } = [];

        public double[][] Buttons { get; set; } = [];

        public double[] Desk { get; set; } = [];

        public int Others { get; set; }

        public int Height { get; set; }
    }
}
