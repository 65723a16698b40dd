using Harkbook.App.Tests.Errors;
using Harkbook.Audio.Recordings.Reading;

namespace Harkbook.App.Tests;

/// <summary>--section and --bars wherever a command takes some bars.</summary>
public sealed class SectionOptionTests : IDisposable
{
    private const string Text = "title Far\ntempo 120\nkey C major\nsection Intro\nchords | C | C | C | C |\nsection Verse 1\nchords | C | Eb | C | C | C | C "
        + "|\nsection Outro\nchords | G |\n";
    private readonly Scene scene = new();

    public SectionOptionTests() => scene.File("far.hark", Text);

    // Six bars of four beats at 120 last 12 s; an audition dies away for 2.5 s.
    [Theory]
    [InlineData("--section", "verse")]
    [InlineData("--section", "Verse 1")]
    [InlineData("--bars", "5-10")]
    public async Task AnAuditionHearsItsBarsAlone(string option, string value)
    {
        var ran = await Launch.RunAsync(scene, "audition", "far.hark", option, value);
        Assert.True(ran.ExitCode == 0, ran.Error);
        Assert.Equal(14.5, (await RecordingReader.InspectAsync(scene.PathOf("audition.wav"), TestContext.Current.CancellationToken)).Length.Value, 0.01);
    }

    [Fact]
    public async Task WhatASectionsNameWasTakenForIsSaid()
    {
        var near = await Launch.RunAsync(scene, "explain", "far.hark", "--section", "verse");
        Assert.Equal("--section verse is taken for Verse 1.", Assert.Single(near.Complaints));
        Assert.Empty((await Launch.RunAsync(scene, "explain", "far.hark", "--section", "verse 1")).Complaints);
    }

    // E flat major is no chord of C major, so the bar that holds it is remarked on; the outro's G is the plain dominant.
    [Fact]
    public async Task AnExplanationKeepsToItsBars()
    {
        var whole = (await Launch.RunAsync(scene, "explain", "far.hark")).Output;
        var verse = (await Launch.RunAsync(scene, "explain", "far.hark", "--section", "verse 1")).Output;
        Assert.Contains("E flat", verse);
        Assert.True(verse.Length < whole.Length);
        Assert.DoesNotContain("E flat", (await Launch.RunAsync(scene, "explain", "far.hark", "--bars", "1-4")).Output.Split("where:")[0]);
    }

    public void Dispose() => scene.Dispose();
}
