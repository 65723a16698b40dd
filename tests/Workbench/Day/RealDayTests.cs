using System.Diagnostics;
using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Tests.Lessons;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>
/// The whole day on a recording of people, with the mouse and by keys alone: drop it, listen, go round slowly, say the tuning, decide three shapes, tap bar
/// lines, enter a riff, tap and type a sung line, take and defend doubts, publish; then the program is ended by force and opened again.
/// </summary>
public sealed class RealDayTests(DayFixture fixture) : IClassFixture<DayFixture>, IDisposable
{
    /// <summary>It takes minutes, and a recording of people, which this repository has none of: done where one is named, a guitar with a voice.</summary>
    private const string Named = "HARKBOOK_DAY_RECORDING";

    private static readonly string? Recording = Environment.GetEnvironmentVariable(Named);

    private readonly TemporaryFolder folder = new();
    private readonly List<Process> started = [];

    private string SongPath => Directory.GetFiles(folder.Path, "*.hark", SearchOption.AllDirectories).Single();

    public void Dispose()
    {
        foreach (var process in started)
        {
            if (!process.HasExited)
                process.Kill();
            process.Dispose();
        }
        folder.Dispose();
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task ADayOnARecordingOfPeople(bool keysAlone)
    {
        Assert.SkipWhen(Recording is null, $"{Named} names no recording of people to do the day on.");
        await using var visit = await Visit.OpenAsync(fixture.Browser, await OpenAsync());
        var hand = new Hand(visit.Page, keysAlone);
        await visit.Page.SetInputFilesAsync("#recordings", Recording!);
        await Expect(visit.Page.Locator("text=Lay it open")).ToBeVisibleAsync(new() { Timeout = 600_000 });
        await hand.PressAsync("text=Lay it open");
        await Expect(visit.Page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
        await hand.PressAsync("#stepsOff");
        await Expect(visit.Page.Locator(".saved")).ToHaveTextAsync("Saved");
        await visit.PictureAsync("people");

        await ListensAsync(hand);
        await SaysTheTuningAsync(hand);
        foreach (var bar in new[] { 2, 3, 4 })
            await DecidesAShapeAsync(hand, bar);
        await TapsBarLinesAsync(hand);
        await EntersARiffAsync(hand, visit);
        await TapsASungLineAsync(hand);
        await AnswersDoubtsAsync(hand);
        await PublishesAsync(hand);
        Assert.Empty(await visit.FaultsAsync());
        Assert.Empty(visit.Complaints);
        await ReopensAsync();
    }

    private static async Task ListensAsync(Hand hand)
    {
        var page = hand.Page;
        await hand.StandAsync(5);
        await page.Keyboard.PressAsync("g");
        for (var press = 0; press < 8; press++)
            await page.Keyboard.PressAsync("-");
        await Expect(page.Locator("#paceSaid")).ToHaveTextAsync("60%");
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#play")).ToContainTextAsync("Stop");
        await Expect(page.Locator("line.moment[visibility=visible]")).ToHaveCountAsync(1);
        await page.Keyboard.PressAsync("Space");
        await page.Keyboard.PressAsync("g");
        await Expect(page.Locator("#earTrouble")).ToBeEmptyAsync();
    }

    private async Task SaysTheTuningAsync(Hand hand)
    {
        await hand.PressAsync(".fact:has-text(\"tuning\")");
        await hand.WriteAsync(".song-top .bench input", "standard");
        await hand.Page.Keyboard.PressAsync("Enter");
        await Expect(hand.Page.Locator(".fact:has-text(\"tuning\") .how")).ToHaveTextAsync("decided");
        await SavedAsync(hand);
        Assert.Equal("E2 A2 D3 G3 B3 E4", $"{Read().Tuning.Value}");
    }

    private async Task DecidesAShapeAsync(Hand hand, int bar)
    {
        await hand.StandAsync(bar);
        await hand.Page.Keyboard.PressAsync("Enter");
        await hand.PressAsync(".chord-bench figure button.main");
        await Expect(hand.Page.Locator(".followed")).ToContainTextAsync($"bar {bar}: ");
        await SavedAsync(hand);
        Assert.Contains(Read().Bars.ElementAt(bar - 1).Chords, c => c.Standing == Standing.Decided && c.Value.Shape is not null);
    }

    /// <summary>As each of four bars begins, at less than its pace: the taps are a little late, as a person's are.</summary>
    private async Task TapsBarLinesAsync(Hand hand)
    {
        var page = hand.Page;
        await hand.StandAsync(6);
        await page.Keyboard.PressAsync("t");
        await Expect(page.Locator("#tapBench")).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#play")).ToContainTextAsync("Stop");
        for (var bar = 7; bar <= 10; bar++)
        {
            await Expect(page.Locator("#where")).ToHaveTextAsync($"bar {bar}");
            await page.Keyboard.PressAsync(bar % 2 == 0 ? "j" : "f");
        }
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#tapBench [role=status]")).ToHaveTextAsync("4 taps");
        await hand.PressAsync("#tapBench button:has-text(\"Lay them\")");
        await Expect(page.Locator(".followed")).ToContainTextAsync("4 bar lines tapped");
        await SavedAsync(hand);
        Assert.Contains(Read().Sections.SelectMany(s => s.Anchors), a => a.Standing == Standing.Decided);
        await page.Keyboard.PressAsync("Escape");
    }

    private async Task EntersARiffAsync(Hand hand, Visit visit)
    {
        var page = hand.Page;
        await hand.StandAsync(5);
        await page.Keyboard.PressAsync("n");
        await Expect(page.Locator(".note-cell:focus")).ToHaveCountAsync(1);
        await visit.PictureAsync("people-notes");
        await page.Keyboard.PressAsync("3");
        await Expect(page.Locator(".note-cell.at b")).ToHaveTextAsync("3");
        await page.Keyboard.PressAsync("ArrowRight");
        await page.Keyboard.PressAsync("5");
        await Expect(page.Locator(".note-cell.at b")).ToHaveTextAsync("5");
        await page.Keyboard.PressAsync("h");
        await Expect(page.Locator(".note-cell.at b")).ToHaveTextAsync("h5");
        await page.Keyboard.PressAsync("Escape");
        var entered = Read().Bars.ElementAt(4).Picked.Where(p => p.Standing == Standing.Decided).Select(p => (p.Value.Fret, p.Value.Attack));
        Assert.Equal([(3, Attack.Picked), (5, Attack.HammeredOn)], entered);
    }

    private async Task TapsASungLineAsync(Hand hand)
    {
        var page = hand.Page;
        await hand.StandAsync(5);
        await page.Keyboard.PressAsync("t");
        await hand.PressAsync("#tapBench .choices button:has-text(\"syllables\")");
        await hand.WriteAsync("#tapBench textarea", "Down to the quay");
        await hand.StandAsync(5);
        await page.Keyboard.PressAsync("Space");
        foreach (var next in new[] { "to", "the", "quay", "rhythm alone" })
        {
            await page.WaitForTimeoutAsync(300);
            await page.Keyboard.PressAsync("f");
            await Expect(page.Locator("#tapBench p:has-text(\"Next:\")")).ToContainTextAsync(next);
        }
        await page.Keyboard.PressAsync("Space");
        await hand.PressAsync("#tapBench button:has-text(\"Lay them\")");
        await Expect(page.Locator(".followed")).ToContainTextAsync("4 syllables tapped");
        Assert.Equal(["Down", "to", "the", "quay"],
            Read().Bars.SelectMany(b => b.Sung).Where(s => s.Standing == Standing.Decided).Select(s => s.Value));
        await page.Keyboard.PressAsync("Escape");
    }

    private async Task AnswersDoubtsAsync(Hand hand)
    {
        var page = hand.Page;
        await SavedAsync(hand);
        await hand.StandAsync(5);
        await page.Keyboard.PressAsync("d");
        await Expect(page.Locator(".doubt-line .words")).ToContainTextAsync(new Regex("(Doubt|Contradicted) 1 of"));
        await page.Keyboard.PressAsync("Space");
        await ToDoubtWithAsync(page, "Defend");
        await page.Keyboard.PressAsync("f");
        await Expect(page.Locator(".doubt-line form input:focus")).ToHaveCountAsync(1);
        await page.Keyboard.TypeAsync("heard it played so");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator(".followed")).ToContainTextAsync("stands: heard it played so");
        await SavedAsync(hand);
        Assert.Contains("heard it played so", await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));
        await hand.StandAsync(5);
        if (!await ToDoubtWithAsync(page, "Take"))
            return;
        var before = await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken);
        await page.Keyboard.PressAsync("a");
        await Expect(page.Locator(".followed")).Not.ToContainTextAsync("stands:");
        await SavedAsync(hand);
        Assert.NotEqual(before, await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));
    }

    /// <summary>Goes from doubt to doubt until one has an answer; false where none of a dozen has.</summary>
    private static async Task<bool> ToDoubtWithAsync(IPage page, string answer)
    {
        for (var doubt = 0; doubt < 12; doubt++)
        {
            if (await page.Locator($".doubt-line button:has-text(\"{answer}\")").CountAsync() > 0)
                return true;
            var before = await page.Locator(".doubt-line .words strong").TextContentAsync();
            await page.Keyboard.PressAsync("d");
            await Expect(page.Locator(".doubt-line .words strong")).Not.ToHaveTextAsync(before!);
        }
        return false;
    }

    private static async Task PublishesAsync(Hand hand)
    {
        await hand.StandAsync(1);
        await hand.Page.Keyboard.PressAsync("p");
        await hand.PressAsync("button:has-text(\"Make the lesson\")");
        await Expect(hand.Page.Locator(".files a:has-text(\"sheet.pdf\")")).ToBeVisibleAsync(new() { Timeout = 300_000 });
    }

    private async Task ReopensAsync()
    {
        var text = await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken);
        started[^1].Kill();
        await started[^1].WaitForExitAsync(TestContext.Current.CancellationToken);
        await using var visit = await Visit.OpenAsync(fixture.Browser, await OpenAsync());
        await visit.LayOpenAsync();
        Assert.Equal(text, await File.ReadAllTextAsync(SongPath, TestContext.Current.CancellationToken));
        await visit.Page.Keyboard.PressAsync("z");
        await Expect(visit.Page.Locator(".followed")).ToContainTextAsync("taken back");
    }

    private static Task SavedAsync(Hand hand) => Expect(hand.Page.Locator(".saved")).ToHaveTextAsync("Saved");

    private async Task<Uri> OpenAsync()
    {
        var process = Process.Start(new ProcessStartInfo(KilledTests.Host, [Path.Combine(AppContext.BaseDirectory, "Harkbook.App.dll"), "open", folder.Path,
            "--no-browser"]) { RedirectStandardOutput = true })!;
        started.Add(process);
        return new((await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken))!.Split(' ')[^1]);
    }

    private Song Read() => SongText.Parse(File.ReadAllText(SongPath), SongPath).Song!;
}
