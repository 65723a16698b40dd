using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>A capo song's names written over on disk, and back.</summary>
public sealed class NamesCommandTests
{
    // Capo 1 raises the hand's A by a half step to B flat (common practice).
    private const string Song = "title Far\ncapo 1\nkey Bb major\nshape Bb x02220\nsection A\nchords | Bb . . . | ; the first\n";

    [Fact]
    public async Task TheHandsNamesAreShownThenWrittenThenUndoneByteForByte()
    {
        using var scene = new Scene();
        scene.File("far.hark", Song);
        var before = scene.Contents;
        Assert.Contains("+ shape A  x02220", (await Launch.RunAsync(scene, "names", "far.hark", "hand")).Output, StringComparison.Ordinal);
        Assert.Equal(before, scene.Contents);
        Assert.Equal(0, (await Launch.RunAsync(scene, "names", "far.hark", "hand", "--write")).ExitCode);
        var written = File.ReadAllText(scene.PathOf("far.hark"));
        Assert.Equal("title Far\ncapo 1\nnames      hand\nkey A major\nshape A  x02220\nsection A\nchords | A  . . . | ; the first\n", written);
        Assert.DoesNotContain("warning", (await Launch.RunAsync(scene, "explain", "far.hark")).Error, StringComparison.Ordinal);
        await Launch.RunAsync(scene, "rebar", "far.hark", "--undo");
        Assert.Equal(before, scene.Contents);
    }
}
