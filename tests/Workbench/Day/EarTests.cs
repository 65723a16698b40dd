using Harkbook.Audio.Recordings.Reading;
using Harkbook.Units;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace Harkbook.Workbench.Tests.Day;

/// <summary>What the ear does to the sound, in the browser's own audio engine; expected by arithmetic.</summary>
public sealed class EarTests(DayFixture fixture) : IClassFixture<DayFixture>, IAsyncDisposable
{
    private readonly OpenedBook book = new();

    public ValueTask DisposeAsync() => book.DisposeAsync();

    /// <summary>
    /// A tone of 440 Hz that starts every half second for a quarter: moved by so many cents it has 440·2^(c/1200) Hz, and still starts every half second, a
    /// few hundredths late. Half a semitone would be 3%.
    /// </summary>
    [Theory]
    [InlineData(-600)]
    [InlineData(-35)]
    [InlineData(100)]
    [InlineData(600)]
    public async Task ThePitchMovesAndThePaceStays(int cents)
    {
        await using var visit = await book.VisitAsync(fixture.Browser);
        var found = await visit.Page.EvaluateAsync<double[]>("""
            async cents => {
              const rate = 44100, context = new OfflineAudioContext(2, 3 * rate, rate);
              const buffer = context.createBuffer(1, 3 * rate, rate), wave = buffer.getChannelData(0);
              for (let i = 0; i < wave.length; i++) if (i % (rate / 2) < rate / 4) wave[i] = .5 * Math.sin(2 * Math.PI * 440 * i / rate);
              await context.audioWorklet.addModule("/assets/shift.js");
              const source = new AudioBufferSourceNode(context, { buffer }), shift = new AudioWorkletNode(context, "shift", { outputChannelCount: [2] });
              shift.parameters.get("cents").value = cents;
              source.connect(shift).connect(context.destination);
              source.start();
              const out = (await context.startRendering()).getChannelData(0), starts = [];
              let quiet = rate;
              for (let i = 0; i < out.length; i++) {
                if (Math.abs(out[i]) > .15) { if (quiet > rate / 10) starts.push(i / rate); quiet = 0; } else quiet++;
              }
              let first = 0, last = 0, count = -1;
              for (let i = Math.round((starts[2] + .04) * rate); i < (starts[2] + .2) * rate; i++)
                if (out[i - 1] < 0 && out[i] >= 0) { const at = i - out[i] / (out[i] - out[i - 1]); if (count < 0) first = at; last = at; count++; }
              return [count * rate / (last - first), ...starts];
            }
            """, cents);
        Assert.InRange(found[0] / (440 * Math.Pow(2, cents / 1200.0)), 0.985, 1.015);
        Assert.Equal(6, found.Length - 1);
        Assert.All(found.Skip(1).Select((at, i) => at - i * 0.5), late => Assert.InRange(late, -0.001, 0.05));
    }

    /// <summary>
    /// 440 Hz left, 1000 Hz right: what each portion holds of them, from the definitions of mid (L+R)/2 and side (L−R)/2. A Butterworth band of fourth order
    /// leaves 1/√(1+(f/f₀)⁸) of a tone.
    /// </summary>
    [Theory]
    [InlineData("both", "all", 1, 0, 0, 1)]
    [InlineData("left", "all", 1, 0, 1, 0)]
    [InlineData("right", "all", 0, 1, 0, 1)]
    [InlineData("mid", "all", .5, .5, .5, .5)]
    [InlineData("side", "all", .5, .5, .5, .5)]
    [InlineData("both", "low", 0.104, 0, 0, 0)]
    [InlineData("both", "middle", 0.995, 0, 0, 0.998)]
    [InlineData("both", "high", 0.002, 0, 0, 0.062)]
    public async Task APortionHoldsItsOwn(string side, string band, double leftOf440, double leftOf1000, double rightOf440, double rightOf1000)
    {
        await using var visit = await book.VisitAsync(fixture.Browser);
        var found = await visit.Page.EvaluateAsync<double[]>("""
            async ([side, band]) => {
              const rate = 44100, context = new OfflineAudioContext(2, rate, rate), buffer = context.createBuffer(2, rate, rate), tones = [440, 1000];
              tones.forEach((hertz, c) => {
                const wave = buffer.getChannelData(c);
                for (let i = 0; i < rate; i++) wave[i] = Math.sin(2 * Math.PI * hertz * i / rate);
              });
              const source = new AudioBufferSourceNode(context, { buffer });
              const { input, output } = (await import("/assets/ear.js")).portion(context, side, band);
              source.connect(input);
              output.connect(context.destination);
              source.start();
              const sound = await context.startRendering(), found = [];
              for (const c of [0, 1]) for (const hertz of tones) {
                let re = 0, im = 0;
                for (let i = rate / 2; i < rate; i++) {
                  const x = sound.getChannelData(c)[i], a = 2 * Math.PI * hertz * i / rate;
                  re += x * Math.cos(a);
                  im += x * Math.sin(a);
                }
                found.push(Math.hypot(re, im) * 4 / rate);
              }
              return found;
            }
            """, new[] { side, band });
        Assert.All(found.Zip([leftOf440, leftOf1000, rightOf440, rightOf1000]), pair => Assert.InRange(pair.First, pair.Second - 0.02, pair.Second + 0.02));
    }

    [Fact]
    public async Task ThePitchIsSaidAndTwoPassagesComeInTurn()
    {
        await using var visit = await book.VisitAsync(fixture.Browser);
        var page = visit.Page;
        await page.ClickAsync("tbody a");
        await Expect(page.Locator("rect.bar[tabindex=\"0\"]")).ToBeVisibleAsync();
        await page.Keyboard.PressAsync(",");
        await page.ClickAsync(".ear-more summary");
        await Expect(page.Locator("#shiftSaid")).ToHaveTextAsync("−1 half step");
        await page.FocusAsync("#shift");
        await page.Keyboard.PressAsync("ArrowLeft");
        await Expect(page.Locator("#shiftSaid")).ToHaveTextAsync("−1 half step −5 cents");
        Assert.Empty(await visit.FaultsAsync());
        await visit.PictureAsync("ear");
        await page.ClickAsync("#unshift");
        await Expect(page.Locator("#shiftSaid")).ToHaveTextAsync("as it is");

        await page.FocusAsync("rect.bar[data-bar=\"1\"]");
        await page.Keyboard.PressAsync("g");
        await page.ClickAsync("#inTurn");
        await page.Keyboard.PressAsync("g");
        await page.FocusAsync("rect.bar[data-bar=\"5\"]");
        await page.Keyboard.PressAsync("g");
        await Expect(page.Locator("#inTurn")).ToHaveTextAsync("In turn: bar 1 and bar 5");
        await page.Keyboard.PressAsync("Space");
        await Expect(page.Locator("#where")).ToHaveTextAsync("bar 5");
        await Expect(page.Locator("#where")).ToHaveTextAsync("bar 1");
        await Expect(page.Locator("#where")).ToHaveTextAsync("bar 5");
        await page.Keyboard.PressAsync("Space");
        await page.ClickAsync("#inTurn");
        await Expect(page.Locator("#inTurn")).ToHaveTextAsync("In turn with other bars");
        Assert.Empty(visit.Complaints);
    }

    /// <summary>The finer way, by the server: as long as the recording, and nothing that wasn't offered.</summary>
    [Fact]
    public async Task TheServerGivesTheRecordInParts()
    {
        File.Copy(fixture.Recording, Path.Combine(Path.GetDirectoryName(book.SongPath)!, "kiln.wav"));
        await File.WriteAllTextAsync(book.SongPath, SampleBook.Text.Replace("title      Lantern Row", "title      Lantern Row\nrecording  kiln.wav"),
            TestContext.Current.CancellationToken);
        await using var visit = await book.VisitAsync(fixture.Browser);
        var whole = (await RecordingReader.InspectAsync(fixture.Recording, TestContext.Current.CancellationToken)).Length;
        foreach (var (asked, type) in new[] { ("&of=struck", "audio/wav"), ("&of=held&cents=-100", "audio/flac") })
        {
            var answer = await visit.Page.APIRequest.GetAsync($"{book.Root}sounds/record?song={SampleBook.Id}{asked}", new() { Timeout = 120_000 });
            Assert.Equal((200, type), (answer.Status, answer.Headers["content-type"]));
            var kept = Path.Combine(book.Outside, "part");
            await File.WriteAllBytesAsync(kept, await answer.BodyAsync(), TestContext.Current.CancellationToken);
            Assert.Equal(whole.Value, (await RecordingReader.InspectAsync(kept, TestContext.Current.CancellationToken)).Length.Value, 0.05);
        }
        foreach (var wrong in new[] { "&of=pan:-100..0", "&of=../kiln", "&cents=700" })
            Assert.Equal(400, (await visit.Page.APIRequest.GetAsync($"{book.Root}sounds/record?song={SampleBook.Id}{wrong}")).Status);
    }
}
