using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Instruments;

/// <summary>A shape held against the chord that it is named for.</summary>
public class ShapeContradictionTests
{
    public static TheoryData<string, string, string> OpenPosition => OpenPositionShapes.All;

    // Of the 2,066 guitar shapes of @tombatossals/chords-db 0.5.1 (npm, MIT licence) that are named by a chord symbol, 29 are contradicted; these show each
    // kind that isn't.
    [Theory]
    [InlineData("C11", "x32311", "a third, which some books leave out of an eleventh chord")]
    [InlineData("C13", "333355", "an eleventh, which some books leave out of a thirteenth chord")]
    [InlineData("Cmaj11", "x32001", "the same under a major seventh")]
    [InlineData("C5", "x355xx", "no third")]
    [InlineData("C7#9", "x3234x", "both thirds, and no fifth")]
    [InlineData("Am/G", "3x2210", "a bass outside the chord")]
    [InlineData("C/G", "332010", "an inversion")]
    [InlineData("F#m7b5", "2x221x", "no other notes")]
    public void ShapesFromATableAreTheChordsTheyAreCalled(string symbol, string frets, string because) => Assert.True(Of(symbol, frets) is null, because);

    // Common practice: rootless seventh chords, as a second guitar plays them over a bass (F B D G is worked from the strings below), and a dominant's third
    // and seventh alone.
    [Theory]
    [InlineData("G7", "xx343x")]
    [InlineData("Gm9", "xx3335")]
    [InlineData("G7", "xx34xx")]
    [InlineData("A", "x022xx")]
    [InlineData("C", "032010")]
    public void NotesMayBeLeftOutAndTheBassMayBeAny(string symbol, string frets) => Assert.Null(Of(symbol, frets));

    // Slips of the same table: notes of another chord under the name.
    [Theory]
    [InlineData("Gadd9", "xx3214", "F, C and G# are no notes of Gadd9")]
    [InlineData("Emadd9", "xx3113", "are no notes of Emadd9")]
    [InlineData("C#9#11", "x32003", "C and E are no notes of C#9#11")]
    [InlineData("Adim", "53x43x", "B and D are no notes of Adim")]
    [InlineData("F/A", "533560", "E is no note of F/A")]
    public void NotesOfAnotherChordAreTold(string symbol, string frets, string reason) => Assert.Contains(reason, Of(symbol, frets)?.Reason);

    [Fact]
    public void ARootThatNothingStandsForIsMissed() => Assert.Equal("its root C doesn't sound", Of("C", "0xx0x0")!.Reason);

    [Fact]
    public void ABassBehindASlashIsTheLowestNote() => Assert.Equal("its bass is G, not B", Of("G/B", "320003")!.Reason);

    // Every one of the shapes that players learn first, named as without a capo, is contradicted under any capo.
    [Theory]
    [MemberData(nameof(OpenPosition))]
    public void AHandsNameIsNotWhatSoundsUnderACapo(string symbol, string frets, string pitches)
    {
        Assert.Equal(pitches.Split(' ').Length, Shape.Parse(frets).SoundingStrings);
        var chord = ChordSymbol.Read(symbol);
        Assert.Null(ShapeContradiction.Of(Shape.Parse(frets), Tuning.Standard, Capo.None, chord));
        Assert.All(Enumerable.Range(1, 9), fret => Assert.NotNull(ShapeContradiction.Of(Shape.Parse(frets), Tuning.Standard, Capo.At(fret), chord)));
    }

    private static ShapeContradiction? Of(string symbol, string frets) =>
        ShapeContradiction.Of(Shape.Parse(frets), Tuning.Standard, Capo.None, ChordSymbol.Read(symbol));
}
