using Harkbook.Music.Analysis;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis;

public class ChordSpeechTests
{
    // As players say them: common practice.
    [Theory]
    [InlineData("C", "C")]
    [InlineData("F#m7", "F sharp minor seven")]
    [InlineData("G/D", "G over D")]
    [InlineData("D11", "D eleven")]
    [InlineData("Bbmaj7", "B flat major seven")]
    [InlineData("A7sus4", "A seven sus four")]
    [InlineData("Cadd9", "C add nine")]
    [InlineData("Bm7b5", "B minor seven flat five")]
    [InlineData("C6/9", "C six nine")]
    [InlineData("Am(maj7)", "A minor major seven")]
    public void ChordsAreSaid(string symbol, string said) => Assert.Equal(said, ChordSpeech.Of(ChordSymbol.Read(symbol)));
}
