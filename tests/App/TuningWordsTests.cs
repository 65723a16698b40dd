using Harkbook.App.Tests.Errors;

namespace Harkbook.App.Tests;

/// <summary>
/// Tunings as players say them. Pitches: Wikipedia, "Guitar tunings" (DADGAD, open G, standard); where a note lies without
/// a catalogue's entry (C G D G B E) is arithmetic: the nearest such note to standard tuning's string.
/// </summary>
public sealed class TuningWordsTests : IDisposable
{
    private readonly Scene scene = new();

    [Theory]
    [InlineData("DADGAD", "D2 A2 D3 G3 A3 D4")]
    [InlineData("D A D G A D", "D2 A2 D3 G3 A3 D4")]
    [InlineData("open G", "D2 G2 D3 G3 B3 D4")]
    [InlineData("EADGBE", "E2 A2 D3 G3 B3 E4")]
    [InlineData("CGDGBE", "C2 G2 D3 G3 B3 E4")]
    [InlineData("D2 A2 D3 F#3 A3 D4", "D2 A2 D3 F#3 A3 D4")]
    public async Task ATuningIsReadAsPlayersSayIt(string said, string pitches)
    {
        var ran = await Launch.RunAsync(scene, "shapes", "D", "--tuning", said, "--count", "1");

        Assert.StartsWith($"D in {pitches} ", ran.Output);
    }

    // Pitches: data/tunings.tsv, whose rows have their sources.
    [Theory]
    [InlineData("ukulele", "G4 C4 E4 A4", "ukulele")]
    [InlineData("ukulele low G", "G3 C4 E4 A4", "ukulele")]
    [InlineData("Banjo", "G4 D3 G3 B3 D4", "five-string banjo")]
    [InlineData("double C banjo", "G4 C3 G3 C4 D4", "five-string banjo")]
    [InlineData("sawmill", "G4 D3 G3 C4 D4", "five-string banjo")]
    [InlineData("mandolin", "G3 D4 A4 E5", "mandolin")]
    [InlineData("G3 D4 A4 E5", "G3 D4 A4 E5", "mandolin")]
    [InlineData("baritone", "B1 E2 A2 D3 F#3 B3", "baritone guitar")]
    [InlineData("tenor banjo G D A E", "G2 D3 A3 E4", "tenor banjo")]
    public async Task AnInstrumentIsReadAsPlayersSayIt(string said, string pitches, string instrument)
    {
        var ran = await Launch.RunAsync(scene, "shapes", "D", "--tuning", said, "--count", "1");

        Assert.StartsWith($"D in {pitches} on the {instrument} ", ran.Output);
    }

    [Theory]
    [InlineData("DADGA")]
    [InlineData("dadgad")]
    [InlineData("open H")]
    public async Task WhatIsNoTuningIsRefused(string said) =>
        Assert.Equal(2, (await Launch.RunAsync(scene, "shapes", "D", "--tuning", said)).ExitCode);

    // Pitches: data/tunings.tsv, whose rows have their sources.
    [Fact]
    public async Task TuningsAreListedByInstrument()
    {
        var all = (await Launch.RunAsync(scene, "tunings")).Output;
        Assert.Matches("(?m)^guitar, six-string guitar\r?$", all);
        Assert.Matches(@"(?m)^  D A D G A D +D2 A2 D3 G3 A3 D4\r?$", all);
        var banjo = (await Launch.RunAsync(scene, "tunings", "banjo")).Output;
        Assert.StartsWith("five-string banjo, banjo", banjo);
        Assert.DoesNotContain("ukulele, ", banjo);
        Assert.Contains("tunings", (await Launch.RunAsync(scene, "shapes", "D", "--tuning", "open H")).Error);
        Assert.Contains("open G minor", (await Launch.RunAsync(scene, "shapes", "D", "--tuning", "open H")).Error);
        Assert.Equal(2, (await Launch.RunAsync(scene, "tunings", "sackbut")).ExitCode);
    }

    [Fact]
    public async Task HelpNamesTheCommandThatTheUserTypes()
    {
        var ran = await Launch.RunAsync(scene, "shapes", "--help");

        Assert.Contains("harkbook shapes <chord>", ran.Output);
        Assert.DoesNotContain("Harkbook.App", ran.Output);
    }

    public void Dispose() => scene.Dispose();
}
