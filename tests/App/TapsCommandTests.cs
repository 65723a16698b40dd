using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>Tapped times, from the page to the song file.</summary>
public sealed class TapsCommandTests : IDisposable
{
    private const string Text = "title Far\nrecording take.wav\ntempo 120\nsection A ; the verse\nanchors 1 = 0:00  ~heard 90% ; by ear\nchords | C | C "
        + "|\nsung | x . x . | x . . . | ~heard 40% ; who knows\n";
    private readonly Scene scene = new();

    public void Dispose() => scene.Dispose();

    [Fact]
    public async Task ThePageIsMadeBesideTheSong()
    {
        scene.Take(4).File("far.hark", Text);
        var ran = await Launch.RunAsync(scene, "taps", "far.hark");
        Assert.True(ran.ExitCode == 0, ran.Error);
        Assert.StartsWith("taps.html", ran.Output);
        Assert.Contains("harkbook taps far.hark taps.txt", await File.ReadAllTextAsync(scene.PathOf("taps.html"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task WithoutWriteTheChangeIsOnlyShown()
    {
        scene.File("far.hark", Text).File("taps.txt", "0:00.01 one\n0:01.01 two\n");
        var ran = await Launch.RunAsync(scene, "taps", "far.hark", "taps.txt");
        Assert.Equal("   7 - sung | x . x . | x . . . | ~heard 40% ; who knows\n   7 + sung | one . two . | x . . . | ~heard 40%  ~bar 1 decided ; who knows\n",
            ran.Output.ReplaceLineEndings("\n"));
        Assert.Equal(Text, await File.ReadAllTextAsync(scene.PathOf("far.hark"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task BarLinesAndWordsGoIntoTheSongAndItsCommentsStay()
    {
        scene.File("far.hark", "\uFEFF" + Text.ReplaceLineEndings("\r\n")).File("taps.txt", "; by hand\n0:00.5 |1\n0:01.5 lo\n0:02.5 |2\n0:03 la\n0:04.5 |3\n");
        var ran = await Launch.RunAsync(scene, "taps", "far.hark", "taps.txt", "--write", "--delay", "100");
        Assert.True(ran.ExitCode == 0, ran.Error);
        var expected = Text.Replace("1 = 0:00  ~heard 90% ;", "1 = 0:00.400   3 = 0:04.400 ;")
            .Replace("x . x . | x . . . | ~heard 40% ;", ". . lo . | . la . . | ;");
        Assert.Equal("\uFEFF" + expected.ReplaceLineEndings("\r\n"),
            System.Text.Encoding.UTF8.GetString(await File.ReadAllBytesAsync(scene.PathOf("far.hark"), TestContext.Current.CancellationToken)));
        Assert.Contains("tied by 2 anchors", ran.Error);
    }

    [Fact]
    public async Task WordsThatAnotherVerseTakesOverAreToldOf()
    {
        scene.File("far.hark", Text.Replace("section A", "section Verse 1") + "section Verse 2 like Verse 1\n").File("taps.txt", "0:00.01 one\n");
        var ran = await Launch.RunAsync(scene, "taps", "far.hark", "taps.txt", "--write");
        Assert.True(ran.ExitCode == 0, ran.Error);
        Assert.Contains("Verse 2 takes over the words of Verse 1.", ran.Error);
    }

    [Fact]
    public async Task WhatIsWrittenIsUndoneByteForByte()
    {
        scene.File("far.hark", "\uFEFF" + Text.ReplaceLineEndings("\r\n")).File("taps.txt", "0:00.01 one\n0:01.01 two\n");
        var before = scene.Contents;
        Assert.Contains("'harkbook rebar far.hark --undo' gives it back", (await Launch.RunAsync(scene, "taps", "far.hark", "taps.txt", "--write")).Error);
        Assert.NotEqual(before, scene.Contents);
        Assert.Contains("before 'taps --write', byte for byte", (await Launch.RunAsync(scene, "rebar", "far.hark", "--undo")).Output);
        Assert.Equal(before, scene.Contents);
    }
}
