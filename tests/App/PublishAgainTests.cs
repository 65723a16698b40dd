using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>A song is published again after one chord changed: what the change leaves alone is kept, and that is said.</summary>
public sealed class PublishAgainTests
{
    [Fact]
    public async Task WhatWasKeptIsSaid()
    {
        Assert.SkipUnless(Ffmpeg.IsHere, "ffmpeg is not installed here.");
        using var scene = new Scene();
        scene.Take(seconds: 4).File("far.hark", Song("C"));
        Assert.DoesNotContain("kept", await PublishAsync(scene), StringComparison.Ordinal);
        scene.File("far.hark", Song("F"));
        var again = await PublishAsync(scene);
        Assert.Contains("play-along.html  the play-along page, one file, no network needed (its sound kept)", again, StringComparison.Ordinal);
        Assert.Matches("diagrams.*  of an earlier publishing", again);
    }

    private static string Song(string chord) => "title Far\nrecording take.wav\nmeter 4/4\ntempo 120\nkey C major\nshape C x32010\nshape F 133211\n"
        + $"section A\nanchors 1 = 0:00\nchords | {chord} | C |\n";

    private static async Task<string> PublishAsync(Scene scene)
    {
        var ran = await Launch.RunAsync(scene, "publish", "far.hark", "--only", scene.Contents.Any(c => c.Contains("lesson", StringComparison.Ordinal))
            ? "sheet,page" : "sheet,diagrams,page");
        Assert.True(ran.ExitCode == 0, ran.Error);
        return ran.Output;
    }
}
