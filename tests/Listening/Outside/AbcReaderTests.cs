using Harkbook.Bench.Folk;

namespace Harkbook.Listening.Tests.Outside;

// The sections are those of the abc music standard 2.1 (December 2011).
public class AbcReaderTests
{
    [Theory]
    [InlineData("D", "FCfc", 66, 61, 78, 73)]
    [InlineData("Eb", "BEAD", 70, 63, 68, 62)]
    [InlineData("Am", "GFc'C,", 67, 65, 84, 48)]
    [InlineData("Dm", "B_A=BA", 70, 68, 71, 68)]
    public void NotesFollowKeyOctaveAndAccidentals(string key, string music, params int[] pitches) =>
        Assert.Equal(pitches, Read($"K:{key}\n{music}|").Notes.Select(n => Assert.Single(n.Pitches)));

    // Section 4.2: an accidental holds until the bar line.
    [Fact]
    public void AccidentalsEndWithTheBar() =>
        Assert.Equal([66, 66, 65], Read("K:C\n^FF|F").Notes.Select(n => n.Pitches[0]));

    // Section 3.1.7: below 0.75 a sixteenth, else an eighth, where L isn't given.
    [Theory]
    [InlineData("2/4", 1 / 16.0)]
    [InlineData("3/4", 1 / 8.0)]
    [InlineData("6/8", 1 / 8.0)]
    public void TheMeterGivesTheUnit(string meter, double length) =>
        Assert.Equal(length, Read($"M:{meter}\nK:C\nC").Notes[0].Length);

    // Sections 4.3, 4.11 and 4.13: lengths, ties, triplets.
    [Fact]
    public void LengthsTiesAndTriplets() =>
        Assert.Equal([3 / 8.0, 1 / 16.0, 3 / 4.0, 1 / 6.0, 1 / 6.0, 1 / 6.0], Read("L:1/4\nK:C\nC3/2C/4D2-D(3EFG").Notes.Select(n => n.Length),
            (a, b) => Math.Abs(a - b) < 1e-9);

    // Sections 4.8 and 4.9: repeats with first and second endings.
    [Theory]
    [InlineData("|:CD|EF:|GA|", 60, 62, 64, 65, 60, 62, 64, 65, 67, 69)]
    [InlineData("|:CD|[1EF:|[2GA||cd|", 60, 62, 64, 65, 60, 62, 67, 69, 72, 74)]
    [InlineData("CD|EF:|:GA:|", 60, 62, 64, 65, 60, 62, 64, 65, 67, 69, 67, 69)]
    public void RepeatsAreWrittenOut(string music, params int[] pitches) =>
        Assert.Equal(pitches, Read($"M:2/4\nL:1/4\nK:C\n{music}").Notes.Select(n => n.Pitches[0]));

    [Fact]
    public void BarsStartAfterThePickUpAndSpanAPartsEnd() =>
        Assert.Equal([0.25, 1, 1.75], Read("M:3/4\nL:1/4\nK:C\nG|CDE|F2||G|CDE|").Bars.Select(b => b.Start));

    [Theory]
    [InlineData("F#m7", "F#:min7")]
    [InlineData("D/f+", "D:maj/3")]
    [InlineData("Am7/G", "A:min7/b7")]
    public void ChordSymbolsHaveHarteLabels(string symbol, string label) => Assert.Equal(label, ChordSymbol.Read(symbol)?.Harte);

    private static AbcTune Read(string text) => Assert.Single(AbcReader.ReadAll("X:1\n" + text));
}
