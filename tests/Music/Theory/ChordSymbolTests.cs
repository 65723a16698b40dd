using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

public class ChordSymbolTests
{
    // Textbook spellings: "Open Music Theory" (triads) and "Integrated Music Theory 2018–19", section 3c.
    [Theory]
    [InlineData("C", "1 3 5")]
    [InlineData("Cmin", "1 b3 5")]
    [InlineData("Cm", "1 b3 5")]
    [InlineData("C−", "1 b3 5")]
    [InlineData("Caug", "1 3 #5")]
    [InlineData("C+", "1 3 #5")]
    [InlineData("Cdim", "1 b3 b5")]
    [InlineData("C°", "1 b3 b5")]
    [InlineData("Cmaj7", "1 3 5 7")]
    [InlineData("CM7", "1 3 5 7")]
    [InlineData("CΔ", "1 3 5 7")]
    [InlineData("C7", "1 3 5 b7")]
    [InlineData("Cmin7", "1 b3 5 b7")]
    [InlineData("C−7", "1 b3 5 b7")]
    [InlineData("Cø7", "1 b3 b5 b7")]
    [InlineData("Cø", "1 b3 b5 b7")]
    [InlineData("Cm7(b5)", "1 b3 b5 b7")]
    [InlineData("Cdim7", "1 b3 b5 bb7")]
    [InlineData("C°7", "1 b3 b5 bb7")]
    [InlineData("Csus", "1 4 5")]
    [InlineData("Cadd9", "1 3 5 9")]
    [InlineData("C9", "1 3 5 b7 9")]
    [InlineData("C6/9", "1 3 5 6 9")]
    public void TextbookSpellingsAreRead(string symbol, string degrees) =>
        Assert.Equal(ChordQuality.FromDegrees(degrees), ChordSymbol.Read(symbol).Quality);

    // Common practice; the rules where books differ are those that ChordSymbol documents.
    [Theory]
    [InlineData("C11", "1 5 b7 9 11")]
    [InlineData("Cm11", "1 b3 5 b7 9 11")]
    [InlineData("C13", "1 3 5 b7 9 13")]
    [InlineData("Cm13", "1 b3 5 b7 9 11 13")]
    [InlineData("C2", "1 3 5 9")]
    [InlineData("C4", "1 4 5")]
    [InlineData("Csus2", "1 2 5")]
    [InlineData("C7b9", "1 3 5 b7 b9")]
    [InlineData("C7-9", "1 3 5 b7 b9")]
    [InlineData("C7(#9,b13)", "1 3 5 b7 #9 b13")]
    [InlineData("C13b9", "1 3 5 b7 b9 13")]
    [InlineData("C9#11", "1 3 5 b7 9 #11")]
    [InlineData("C7b5", "1 3 b5 b7")]
    [InlineData("C7+", "1 3 #5 b7")]
    [InlineData("C+7", "1 3 #5 b7")]
    [InlineData("C7♯9", "1 3 5 b7 #9")]
    [InlineData("Cmaj7#11", "1 3 5 7 #11")]
    [InlineData("C7sus", "1 4 5 b7")]
    [InlineData("C7b9sus4", "1 4 5 b7 b9")]
    [InlineData("Cm(maj7)", "1 b3 5 7")]
    [InlineData("C5", "1 5")]
    [InlineData("C(no3)", "1 5")]
    [InlineData("Comit3", "1 5")]
    [InlineData("Cadd2", "1 2 3 5")]
    [InlineData("C(9)", "1 3 5 9")]
    [InlineData("Cmmaj7", "1 b3 5 7")]
    [InlineData("C(b5)", "1 3 b5")]
    [InlineData("C7/9", "1 3 5 b7 9")]
    [InlineData("Cm/maj7", "1 b3 5 7")]
    [InlineData("C^7", "1 3 5 7")]
    [InlineData("C°9", "1 b3 b5 bb7 9")]
    [InlineData("C7alt", "1 3 b7 b9 #9 #11 b13")]
    public void GuitaristsSpellingsAreRead(string symbol, string degrees) =>
        Assert.Equal(ChordQuality.FromDegrees(degrees), ChordSymbol.Read(symbol).Quality);

    // Slash basses: "Integrated Music Theory 2018–19", section 3c.
    [Theory]
    [InlineData("D7/F#", "D", "F#")]
    [InlineData("Cm/Eb", "C", "Eb")]
    [InlineData("D#dim/F#", "D#", "F#")]
    [InlineData("C6/9/E", "C", "E")]
    [InlineData("C6/A", "C", "A")]
    [InlineData("F/G", "F", "G")]
    public void BassIsANote(string symbol, string root, string bass)
    {
        var chord = ChordSymbol.Read(symbol);
        Assert.Equal((root, bass), (chord.Root.ToString(), chord.Bass.ToString()));
    }

    // A sign straight after the root belongs to it (common practice).
    [Fact]
    public void FlatAfterRootBelongsToRoot() =>
        Assert.Equal(Chord.Of(PitchName.Parse("Cb"), ChordQuality.Power), ChordSymbol.Read("Cb5"));

    // Names in the forms that guitar books print (common practice).
    [Theory]
    [InlineData("1 3 5 b7 #9", "E7#9")]
    [InlineData("1 3 5 b7 b9 #11", "E7b9#11")]
    [InlineData("1 3 5 b7 9 #11 13", "E13#11")]
    [InlineData("1 3 5 b7 b9 13", "E13b9")]
    [InlineData("1 b3 5 9", "Emadd9")]
    [InlineData("1 3 5 6 9 #11", "E6/9#11")]
    [InlineData("1 3 b5", "E(b5)")]
    [InlineData("1 3 5 b7 13", "E7add13")]
    [InlineData("1 3 b7", "E7(no5)")]
    [InlineData("1 5 b7", "E7(no3)")]
    [InlineData("1 3 #5 b7 #9", "E7#5#9")]
    [InlineData("1 b3 b5 b7", "Em7b5")]
    public void WritesPlainNames(string degrees, string symbol) =>
        Assert.Equal(symbol, ChordSymbol.Write(Chord.Of(PitchName.Parse("E"), ChordQuality.FromDegrees(degrees))));

    [Theory]
    [InlineData("", 0, "root")]
    [InlineData("H7", 0, "root")]
    [InlineData("cm", 0, "root")]
    [InlineData("C7x", 2, "altered degree")]
    [InlineData("C/", 2, "bass")]
    [InlineData("C/E/G", 3, "end")]
    [InlineData("C7(b9", 5, "bracket")]
    [InlineData("Cadd99", 5, "altered degree")]
    [InlineData("Cnothing", 3, "leave out")]
    public void ErrorsNameThePlace(string symbol, int index, string expected)
    {
        Assert.False(ChordSymbol.TryRead(symbol, out _, out var problem));
        Assert.Equal(index, problem.Index);
        Assert.Contains(expected, problem.Expected);
    }

    [Fact]
    public void NoChordReadsAndWrites()
    {
        Assert.Equal("N.C.", ChordSymbol.Write(Chord.None));
        Assert.All(["N.C.", "NC"], text => Assert.True(ChordSymbol.Read(text).IsNone));
    }

    [Fact]
    public void EveryChordReadsBack() => AnyChord.Of(15).Sample(chord => ChordSymbol.Read(ChordSymbol.Write(chord)) == chord, iter: 3_000);

    [Fact]
    public void EveryNamedKindHasItsOwnWriting() =>
        Assert.All(ChordCoreNames, name => Assert.Equal("C" + name, ChordSymbol.Write(ChordSymbol.Read("C" + name))));

    private static string[] ChordCoreNames =>
    [
        "", "m", "5", "7", "maj7", "m7", "sus4", "sus2", "dim", "aug", "6", "m6", "7sus4", "add9", "madd9", "9", "maj9", "m9", "dim7",
        "m7b5", "m(maj7)", "6/9", "m6/9", "9sus4", "11", "maj11", "m11", "13", "maj13", "m13", "13sus4", "7#5", "maj7#5", "7alt",
    ];
}
