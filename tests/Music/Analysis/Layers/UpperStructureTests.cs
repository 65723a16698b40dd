using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Layers;

public class UpperStructureTests
{
    // Rows with D, Eb, Gb, Ab, A, Cm, Dbm, Ebm and F#m: J. C. Baez, "Upper structures" (johncarlosbaez.wordpress.com, 16 February 2023);
    // the others by counting degrees.
    [Theory]
    [InlineData("C7", "D", "9 #11 13")]
    [InlineData("C7", "Eb", "#9 5 b7")]
    [InlineData("C7", "Gb", "#11 b7 b9")]
    [InlineData("C7", "Ab", "b13 1 #9")]
    [InlineData("C7", "A", "13 b9 3")]
    [InlineData("C7", "Cm", "1 #9 5")]
    [InlineData("C7", "Dbm", "b9 3 b13")]
    [InlineData("C7", "Ebm", "#9 #11 b7")]
    [InlineData("C7", "F#m", "#11 13 b9")]
    [InlineData("C7", "Gm", "5 b7 9")]
    [InlineData("C7", "Am", "13 1 3")]
    [InlineData("C7", "Bb", "b7 9 11")]
    [InlineData("A7", "C", "#9 5 b7")]
    [InlineData("Bb7", "C", "9 #11 13")]
    [InlineData("E7", "C", "b13 1 #9")]
    [InlineData("Eb7", "C", "13 b9 3")]
    [InlineData("D7", "C", "b7 9 11")]
    [InlineData("F7", "C", "5 7 9")]
    [InlineData("G7", "C", "11 13 1")]
    [InlineData("C", "Am", "6 1 3")]
    public void TriadsStandOnDegrees(string lower, string upper, string degrees) =>
        Assert.Equal(degrees, string.Join(' ', UpperStructure.Degrees(Chord(lower), Chord(upper).Notes).Select(d => d.DegreeName)));

    // Which triads sit well over C7: the same page; natural 11 against the third and 7 against b7 are to be avoided (common practice).
    [Theory]
    [InlineData("D Eb Gb Ab A Cm Dbm Ebm F#m Gm Am", true)]
    [InlineData("Bb F Dm Db Bbm Fm E G B Em Bm Abm", false)]
    public void TriadsColourOrClashOverASeventh(string triads, bool colours) =>
        Assert.All(triads.Split(' '), t => Assert.Equal(colours, Chord(t).Notes.All(n => UpperStructure.IsColour(Chord("C7"), n.PitchClass))));

    // What a second layer makes of a guitar's chord: sets and names worked by hand from the degrees (chord symbols as docs/chord-symbols.md).
    [Theory]
    [InlineData("Am", "C", "Am7")]
    [InlineData("Em", "G", "Em7")]
    [InlineData("C", "Em", "Cmaj7")]
    [InlineData("C", "Am", "C6")]
    [InlineData("C", "G", "Cmaj9")]
    [InlineData("F", "C", "Fmaj9")]
    [InlineData("G", "Dm", "G9")]
    [InlineData("A", "C", "A7#9")]
    [InlineData("E", "G", "E7#9")]
    [InlineData("C", "D", "C6/9#11")]
    [InlineData("G", "F", "G9add11")]
    [InlineData("Dm", "C", "Dm11")]
    [InlineData("Am", "G", "Am11")]
    [InlineData("Bb", "C", "Bb6/9#11")]
    [InlineData("D", "C", "D9add11")]
    public void TwoLayersMakeOneChord(string lower, string upper, string union)
    {
        var layered = LayeredChord.Of(Chord(lower), [], Chord(lower).Root, Chord(upper).Notes);
        Assert.Equal(Chord(union).PitchClasses, layered.Name.PitchClasses);
        Assert.Equal(Chord(lower).Root, layered.Name.Root);
        Assert.Equal(union, ChordSymbol.Write(layered.Name));
        Assert.Equal(Chord(upper), layered.Upper);
    }

    // C over D: D G A C E is 1 4 5 b7 9, a ninth with its fourth for a third, which is also written as an eleventh without a third (common practice).
    [Fact]
    public void OverABareFifthATriadMakesASuspendedNinth()
    {
        var layered = LayeredChord.Of(Chord("D5"), [], PitchName.Parse("D"), Chord("C").Notes);
        Assert.Equal("D9sus4", ChordSymbol.Write(layered.Name));
        Assert.Equal(Chord("D11").PitchClasses, layered.Name.PitchClasses);
        Assert.Empty(layered.Shared);
    }

    private static Chord Chord(string symbol) => ChordSymbol.Read(symbol);
}
