using CsCheck;
using Harkbook.Music.Theory.Labels;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

/// <summary>MusicXML 4.0 (W3C Community Group Final Report), XSD types kind-value, degree-alter and degree-type-value.</summary>
public class MusicXmlChordTests
{
    [Theory]
    [InlineData("major", "0 4 7")]
    [InlineData("minor", "0 3 7")]
    [InlineData("augmented", "0 4 8")]
    [InlineData("diminished", "0 3 6")]
    [InlineData("dominant", "0 4 7 10")]
    [InlineData("major-seventh", "0 4 7 11")]
    [InlineData("minor-seventh", "0 3 7 10")]
    [InlineData("diminished-seventh", "0 3 6 9")]
    [InlineData("augmented-seventh", "0 4 8 10")]
    [InlineData("half-diminished", "0 3 6 10")]
    [InlineData("major-minor", "0 3 7 11")]
    [InlineData("major-sixth", "0 4 7 9")]
    [InlineData("minor-sixth", "0 3 7 9")]
    [InlineData("dominant-ninth", "0 4 7 10 14")]
    [InlineData("major-ninth", "0 4 7 11 14")]
    [InlineData("minor-ninth", "0 3 7 10 14")]
    [InlineData("dominant-11th", "0 4 7 10 14 17")]
    [InlineData("major-11th", "0 4 7 11 14 17")]
    [InlineData("minor-11th", "0 3 7 10 14 17")]
    [InlineData("dominant-13th", "0 4 7 10 14 17 21")]
    [InlineData("major-13th", "0 4 7 11 14 17 21")]
    [InlineData("minor-13th", "0 3 7 10 14 17 21")]
    [InlineData("suspended-second", "0 2 7")]
    [InlineData("suspended-fourth", "0 5 7")]
    [InlineData("power", "0 7")]
    [InlineData("pedal", "0")]
    public void KindsHoldTheirSemitones(string kind, string semitones) =>
        Assert.Equal(semitones, string.Join(' ', new MusicXmlChord(kind, []).Quality!.Intervals.Select(i => i.Semitones)));

    [Fact]
    public void ThereAre33Kinds() => Assert.Equal(33, MusicXmlKind.All.Select(k => k.Value).Distinct().Count());

    [Theory]
    [InlineData("C", "major", "")]
    [InlineData("Cm(maj7)", "major-minor", "")]
    [InlineData("Cadd9", "major", "Add 9 0")]
    [InlineData("C7sus4", "suspended-fourth", "Add 7 0")]
    [InlineData("C6/9", "major-sixth", "Add 9 0")]
    [InlineData("C7b5", "dominant", "Alter 5 -1")]
    [InlineData("C7#9", "dominant", "Add 9 1")]
    [InlineData("Cmaj7#11", "major-seventh", "Add 11 1")]
    [InlineData("N.C.", "none", "")]
    public void SymbolsBecomeKinds(string symbol, string kind, string degrees)
    {
        var chord = MusicXmlChord.Of(ChordSymbol.Read(symbol).Quality);
        Assert.Equal(kind, chord.Kind);
        Assert.Equal(degrees, string.Join(',', chord.Degrees.Select(d => $"{d.Type} {d.Value} {d.Alter}")));
    }

    [Fact]
    public void EveryQualityReadsBack() => AnyChord.Quality(13).Sample(q => MusicXmlChord.Of(q).Quality! == q, iter: 2_000);

    [Fact]
    public void FunctionalKindsHaveNoIntervals() => Assert.Null(new MusicXmlChord("Neapolitan", []).Quality);
}
