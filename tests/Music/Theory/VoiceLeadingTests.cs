using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

public class VoiceLeadingTests
{
    // The three one-note moves of neo-Riemannian theory (parallel 1, leading-tone exchange 1, relative 2) and others,
    // counted by trying every pairing outside this program.
    [Theory]
    [InlineData("Cm", 1)]
    [InlineData("Em", 1)]
    [InlineData("Am", 2)]
    [InlineData("Fm", 2)]
    [InlineData("C#m", 2)]
    [InlineData("E", 2)]
    [InlineData("Ab", 2)]
    [InlineData("F", 3)]
    [InlineData("G", 3)]
    [InlineData("Db", 3)]
    [InlineData("Gm", 4)]
    [InlineData("Dm", 5)]
    [InlineData("F#m", 5)]
    [InlineData("D", 6)]
    [InlineData("F#", 6)]
    [InlineData("C", 0)]
    [InlineData("C7", 2)]
    public void CMajorMovesTo(string symbol, int semitones) =>
        Assert.Equal(semitones, VoiceLeading.Distance(ChordSymbol.Read("C"), ChordSymbol.Read(symbol)));

    [Fact]
    public void ThereIsAsFarAsBack() =>
        Gen.Select(AnyChord.Of(13), AnyChord.Of(13)).Sample((a, b) => VoiceLeading.Distance(a, b) == VoiceLeading.Distance(b, a));

    [Fact]
    public void NoChordIsRefused() => Assert.Throws<ArgumentException>(() => VoiceLeading.Distance(Chord.None, ChordSymbol.Read("C")));
}
