using System.Text.Json;
using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>What the commands about instruments and songbooks print. Values: data tables and their tests, or worked by hand.</summary>
public sealed class InstrumentCommandTests : IDisposable
{
    private const string Harp = "title Far\nkey D major\ntempo 60\nharp G\nsection A\nharp | -4 . +4 . | -3&-4 . . _ |\nsection B\nharp | +4 . . _ |\n";
    private readonly Scene scene = new();

    [Fact]
    public async Task HarpsTakesASongsPart()
    {
        scene.File("far.hark", Harp);
        var ran = await RunAsync("harps", "far.hark", "--count", "1");
        Assert.StartsWith("5 notes, F#4 to A4, in D major", ran);
        Assert.Contains("G      2nd position, 5 plain", ran);
        Assert.Contains("(the song's own)", ran);
        Assert.Contains("-4 +4 -3&-4 +4", ran);
        Assert.Contains("longest one way", ran);
    }

    [Fact]
    public async Task ASectionCanBeTakenAloneAndReadByAMachine()
    {
        scene.File("far.hark", Harp);
        var json = JsonDocument.Parse(await RunAsync("harps", "far.hark", "--section", "b", "--json", "--layout", "all", "--octaves")).RootElement;
        Assert.Equal("G4", json.GetProperty("pitches")[0][0].GetString());
        Assert.Equal(0.75, json.GetProperty("breath").GetProperty("barsOut").GetDouble());
        Assert.Equal(4, json.GetProperty("harmonicas").GetArrayLength());
    }

    // Ten-hole layout in G: Wikipedia, "Richter-tuned harmonica"; C, Em and Bm can't be had on one breath (common practice: IV, vi and iii).
    [Fact]
    public async Task HolesShowsAHarmonica()
    {
        var ran = await RunAsync("holes", "G");
        Assert.Contains("blow +      G3   B3   D4   G4   B4   D5   G5   B5   D6   G6", ran);
        Assert.Contains("draw -      A3   D4   F#4  A4   C5   E5   F#5  A5   C6   E6", ran);
        Assert.Contains("1st G, 2nd D, 3rd A", ran);
        Assert.Contains("never       Bm, C, Em", ran);
        var json = JsonDocument.Parse(await RunAsync("holes", "low", "F", "--json")).RootElement[0];
        Assert.Equal("F3", json.GetProperty("notes")[0].GetProperty("pitch").GetString());
    }

    // A .016 plain steel string at B3 on 25.5 inches (647.7 mm) pulls 104.2 N (textbook physics, see StringWeightTests).
    [Fact]
    public async Task RetuneTellsTensionAndOrder()
    {
        var ran = await RunAsync("retune", "standard", "DADGAD", "--strings", "12 16 24w 32w 42w 53w", "--scale", "647.7");
        Assert.Contains("string 2  B3   to A3   down 2 semitones  tension 79%, 104.2 N to 82.7 N", ran);
        Assert.Contains("In turn: string 6 down to D2, string 2 down to A3, string 1 down to D4.", ran);
        Assert.Equal(2, JsonDocument.Parse(await RunAsync("retune", "standard", "open E", "--json")).RootElement.GetProperty("sameUnderCapo")[0]
            .GetProperty("capo").GetInt32());
    }

    // A ukulele's fourth string is re-entrant: an octave down leaves 2^(-12/6) = 25% of the tension, so sets for low G have another string (common practice).
    [Fact]
    public async Task RetuneTellsWhereAnotherStringIsNeeded()
    {
        var ran = await RunAsync("retune", "ukulele", "ukulele low G");
        Assert.Contains("down 12 semitones another string: this one would be too slack", ran);
        Assert.Contains("In turn: another string 4 for G3.", ran);
    }

    [Fact]
    public async Task SetlistPutsLikeTuningsTogether()
    {
        foreach (var (name, tuning) in new[] { ("a", "D2 A2 D3 G3 A3 D4"), ("b", "E2 A2 D3 G3 B3 E4"), ("c", "D2 A2 D3 G3 A3 D4"), ("d", "G4 C4 E4 A4") })
            scene.File($"book/{name}.hark", $"title Song {name}\ntuning {tuning}\n");
        var json = JsonDocument.Parse(await RunAsync("setlist", "book", "--json")).RootElement;
        Assert.Equal(["Song b", "Song a", "Song c"], json.GetProperty("songs").EnumerateArray().Select(s => s.GetProperty("title").GetString()));
        Assert.Equal("Song d", json.GetProperty("leftOut")[0].GetString());
        Assert.Contains("as it is", await RunAsync("setlist", "book"));
    }

    [Fact]
    public async Task SongbookLooksAtAFolder()
    {
        scene.File("book/one/one.hark", "title One\nshape G 320003\nsection Chorus\nchords | G |\n")
            .File("book/one/heard/one/one.hark", "title One\nsection A\nchords | G |\n")
            .File("book/two.hark", "title Two\ncapo 2\nshape A 320003\nsection Refrain\nchords | A |\n");
        var json = JsonDocument.Parse(await RunAsync("songbook", "book", "--json")).RootElement;
        Assert.Equal(["One", "Two"], json.GetProperty("songs").EnumerateArray().Select(s => s.GetProperty("title").GetString()));
        Assert.Equal("sectionNamedTwice", Assert.Single(json.GetProperty("findings").EnumerateArray()).GetProperty("kind").GetString());
        Assert.Contains("Two: A (play G) as 320003 in standard, capo 2, bars 1", await RunAsync("songbook", "book", "--where", "320003"));
        Assert.Equal("No song of the book uses it.\n", await RunAsync("songbook", "book", "--where", "Bm"));
    }

    // One shape under two names: two bars are called Asus2 and one A5, counted by hand.
    [Fact]
    public async Task SongbookSaysWhichNameItCounts()
    {
        scene.File("book/one.hark", "title One\nshape Asus2 x02200\nshape A5 x02200\nsection A\nchords | Asus2 | Asus2 | A5 |\n")
            .File("book/two.hark", "title Two\nsection A\nchords | E |\n");
        var ran = await RunAsync("songbook", "book");
        Assert.Contains("One, Asus2 2 bars", ran);
        Assert.Contains("One, A5 1 bar", ran);
    }

    [Theory]
    [InlineData("index.pdf", "%PDF")]
    [InlineData("index.html", "<!DOCTYPE html>")]
    public async Task SongbookWritesAnIndex(string name, string start)
    {
        scene.File("one.hark", "title One\nshape G 320003\nsection A\nchords | G |\n");
        Assert.Contains("the index to print", await RunAsync("songbook", "one.hark", "--page", name));
        Assert.StartsWith(start, await File.ReadAllTextAsync(scene.PathOf(name), TestContext.Current.CancellationToken));
    }

    // Whistle guides: D closed, G with three fingers down.
    [Fact]
    public async Task WhistlesDrawsFingerings()
    {
        var lines = (await RunAsync("whistles", "D5", "G5", "D6", "C#6", "--count", "1")).Split('\n');
        Assert.StartsWith("whistle in D: 3 plain, 1 cross-fingered, 1 of them overblown", lines[0]);
        Assert.Equal("  ●   ○   ●   ○", lines[5]);
    }

    public void Dispose() => scene.Dispose();

    private async Task<string> RunAsync(params string[] arguments)
    {
        var ran = await Launch.RunAsync(scene, arguments);
        Assert.True(ran.ExitCode == 0, ran.Error);
        return ran.Output;
    }
}
