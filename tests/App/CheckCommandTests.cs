using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>What the check suggests, from its list to the song file and back.</summary>
public sealed class CheckCommandTests : IDisposable
{
    private const string Song =
        "title Far ; ours\nrecording take.wav\npitch A4 = 430 Hz ; the old fork\ntempo 120\nsection A\nanchors 1 = 0:00\nchords | A |\n";
    private readonly Scene scene = new Scene().Take(4);

    public void Dispose() => scene.Dispose();

    [Fact]
    public async Task WhatIsTakenIsUndoneByteForByte()
    {
        scene.File("far.hark", Song);
        var before = scene.Contents;
        var listed = (await Launch.RunAsync(scene, "check", "far.hark")).Output.Split('\n').Single(l => l.Contains("A4 = 430", StringComparison.Ordinal));
        var number = listed[(listed.LastIndexOf('[') + 1)..listed.LastIndexOf(']')];
        var ran = await Launch.RunAsync(scene, "check", "far.hark", "--take", number, "--write");
        Assert.Contains("pitch A4 = 440", await File.ReadAllTextAsync(scene.PathOf("far.hark"), TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
        Assert.Contains("'harkbook rebar far.hark --undo' gives it back", ran.Error);
        Assert.Contains($"before 'check --take {number} --write', byte for byte", (await Launch.RunAsync(scene, "rebar", "far.hark", "--undo")).Output);
        Assert.Equal(before, scene.Contents);
    }

    [Fact]
    public async Task TheSummarySaysWhatTheRecordingWasNotAsked()
    {
        scene.File("far.hark", Song + "strum | d . . . |\nsung | lo . . . |\n");
        Assert.EndsWith("The recording wasn't asked: where words are sung, since no voice was made out.",
            (await Launch.RunAsync(scene, "check", "far.hark")).Output.TrimEnd());
    }

    /// <summary>One tone throughout has no beat.</summary>
    [Fact]
    public async Task ATempoOfWhatHasNoBeatIsToldSo()
    {
        scene.File("far.hark", Song);
        var told = (await Launch.RunAsync(scene, "check", "far.hark", "--all")).Output;
        Assert.Contains("no beat heard", told.Split('\n').Single(l => l.Contains("tempo 120 (", StringComparison.Ordinal)));
    }

    /// <summary>x32010 sounds C, E, G, C, E: C major (common practice).</summary>
    [Fact]
    public async Task ASongWithoutARecordingIsToldThatWhatCanBeCheckedHolds()
    {
        scene.File("paper.hark", "title Far\nshape C x32010\nsection A\nchords | C |\n");
        var ran = await Launch.RunAsync(scene, "check", "paper.hark");
        Assert.Equal(0, ran.ExitCode);
        Assert.Equal("What can be checked without a recording holds: the shape sounds the chord that it is named for, and a hand holds it.",
            ran.Output.Trim());
    }

    [Fact]
    public async Task ASongWithoutARecordingIsToldWhatDoesNotHold()
    {
        scene.File("paper.hark", "title Far\nshape C x32011\nsection A\nchords | C |\n");
        var ran = await Launch.RunAsync(scene, "check", "paper.hark");
        Assert.Contains("contradicted", ran.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("holds:", ran.Output, StringComparison.Ordinal);
    }
}
