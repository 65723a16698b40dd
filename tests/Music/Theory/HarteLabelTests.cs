using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Theory;

/// <summary>
/// Harte, Sandler, Abdallah and Gómez, ISMIR 2005; worked values from the test suite of mir_eval 0.7
/// (tests/test_chord.py, MIT licence).
/// </summary>
public class HarteLabelTests
{
    [Theory]
    [InlineData("maj", "0 4 7")]
    [InlineData("min", "0 3 7")]
    [InlineData("dim", "0 3 6")]
    [InlineData("aug", "0 4 8")]
    [InlineData("sus4", "0 5 7")]
    [InlineData("sus2", "0 2 7")]
    [InlineData("7", "0 4 7 10")]
    [InlineData("maj7", "0 4 7 11")]
    [InlineData("min7", "0 3 7 10")]
    [InlineData("minmaj7", "0 3 7 11")]
    [InlineData("maj6", "0 4 7 9")]
    [InlineData("min6", "0 3 7 9")]
    [InlineData("dim7", "0 3 6 9")]
    [InlineData("hdim7", "0 3 6 10")]
    [InlineData("9", "0 2 4 7 10")]
    [InlineData("maj9", "0 2 4 7 11")]
    [InlineData("min9", "0 2 3 7 10")]
    [InlineData("1", "0")]
    [InlineData("5", "0 7")]
    public void ShorthandsHoldTheirSemitones(string shorthand, string semitones) =>
        Assert.Equal(semitones, string.Join(' ', HarteLabel.Read("C:" + shorthand).Quality.PitchClasses));

    [Theory]
    [InlineData("b7", 10)]
    [InlineData("#3", 5)]
    [InlineData("b1", -1)]
    [InlineData("#7", 12)]
    [InlineData("bb5", 5)]
    [InlineData("11", 17)]
    [InlineData("#13", 22)]
    public void DegreesAreSemitones(string degree, int semitones) => Assert.Equal(semitones, Interval.ParseDegree(degree).Semitones);

    [Theory]
    [InlineData("C")]
    [InlineData("Eb:min/5")]
    [InlineData("A#:dim7")]
    [InlineData("B:maj(*1,*5)/3")]
    [InlineData("A#:sus4")]
    [InlineData("A:(9,11)")]
    [InlineData("N")]
    [InlineData("X")]
    public void ValidLabelsSplit(string label) => Assert.True(HarteLabel.TrySplit(label, out _, out _));

    [Theory]
    [InlineData("C::maj", 2)]
    [InlineData("C//5", 2)]
    [InlineData("C((4)", 1)]
    [InlineData("C5))", 1)]
    [InlineData("C:maj(*3/3", 8)]
    [InlineData("Cmaj*3/3)", 1)]
    [InlineData("asdf", 0)]
    [InlineData("C:7sus4", 3)]
    [InlineData("C:6", 2)]
    [InlineData("C:m7", 2)]
    [InlineData("C:(7b)", 4)]
    [InlineData("C:(77)", 4)]
    [InlineData("C:(15)", 4)]
    [InlineData("C/4#", 3)]
    public void InvalidLabelsNameThePlace(string label, int index)
    {
        Assert.False(HarteLabel.TrySplit(label, out _, out var problem));
        Assert.Equal(index, problem.Index);
        Assert.NotEmpty(problem.Expected);
        Assert.Throws<FormatException>(() => HarteLabel.Read(label));
    }

    [Theory]
    [InlineData("B:maj(*1,*3)/5", 11, "000000010000", 7)]
    [InlineData("G:dim", 7, "100100100000", 0)]
    [InlineData("C:(3)/3", 0, "100010000000", 4)]
    [InlineData("A:9/b3", 9, "100110010010", 3)]
    [InlineData("G:dim(4)/6", 7, "100101100100", 9)]
    [InlineData("A:min7", 9, "100100010010", 0)]
    [InlineData("G:7/b7", 7, "100010010010", 10)]
    [InlineData("D:sus4", 2, "100001010000", 0)]
    [InlineData("B:dim7/b3", 11, "100100100100", 3)]
    [InlineData("C:maj6/5", 0, "100010010100", 7)]
    [InlineData("A:min(*b3)", 9, "100000010000", 0)]
    [InlineData("N", -1, "000000000000", -1)]
    [InlineData("X", -1, "------------", -1)]
    public void LabelsEncode(string label, int root, string bitmap, int bass)
    {
        var encoding = HarteLabel.Encode(label);
        Assert.Equal((root, bitmap, bass), (encoding.Root, encoding.Bitmap, encoding.Bass));
    }

    [Fact]
    public void ExtendedLabelsReduceOnRequest() =>
        Assert.Equal("101010010010", HarteLabel.Encode("A:9", reduceExtended: true).Bitmap);

    [Fact]
    public void UnknownIsNotAChord()
    {
        Assert.Equal(HarteSound.Unknown, HarteLabel.Split("X").Sound);
        Assert.False(HarteLabel.TryRead("X", out _));
        Assert.Equal(-1, HarteLabel.Encode("X")[3]);
    }

    // The syntax has the bass as a degree and no slash notes.
    [Theory]
    [InlineData("Dm7/F", "D:min7/b3")]
    [InlineData("Cm7b5", "C:hdim7")]
    [InlineData("G7/F", "G:7/b7")]
    [InlineData("Cadd9", "C:maj(9)")]
    [InlineData("C7(no3)", "C:7(*3)")]
    [InlineData("C9sus4", "C:sus4(b7,9)")]
    [InlineData("F/G", "F:maj/2")]
    [InlineData("N.C.", "N")]
    public void SymbolsBecomeLabels(string symbol, string label)
    {
        Assert.Equal(label, HarteLabel.Write(ChordSymbol.Read(symbol)));
        Assert.Equal(ChordSymbol.Read(symbol), HarteLabel.Read(label));
    }

    [Fact]
    public void EveryChordReadsBack() => AnyChord.Of(13).Sample(chord => HarteLabel.Read(HarteLabel.Write(chord)) == chord, iter: 3_000);

    // Every label in the chord fixtures of mir_eval 0.7 (tests/data/chord, MIT licence).
    private const string FixtureLabels = """
        A A:7 A:aug A:maj A:min A:min7 Ab Ab/5 Ab:maj Ab:maj/5 Ab:maj6 Ab:maj7 Ab:min B B:(1) B:7 B:9 B:aug B:maj
        B:min Bb Bb:7 Bb:maj Bb:maj(4)/4 Bb:maj/3 Bb:maj6 Bb:min Bb:sus4 C C#:maj C#:min C#:min(*b3) C#:min/b7 C/3 C/4
        C/5 C:(1) C:maj C:min C:min(*b3) C:min(6)/6 C:min7 C:min7/b7 D D# D#:(1,4) D#:7 D#:maj D#:min(*b3) D:(1,4)
        D:dim D:maj D:min D:min/2 D:min/4 D:min/5 D:min/b3 D:min7 D:min7(2,*b3,4) D:min7(4)/5 D:min7(4)/b7 Db E E/5
        E/7 E:(1,4) E:7 E:9 E:maj E:maj(*3) E:min E:min/b3 E:min7 E:min7/b3 Eb Eb:maj Eb:maj/3 Eb:maj/5 Eb:min Eb:sus4
        F F#:maj F#:maj(*3) F#:min F/3 F:7 F:maj F:maj(9) F:maj(9)/5 F:maj(9)/6 F:maj/5 F:maj7 F:min F:min7 G G#:aug
        G#:min G#:min(*b3) G#:min(*b3,*5) G/3 G:(1) G:7 G:maj G:maj/3 G:min Gb:maj N
        """;

    public static TheoryData<string> Labels => [.. FixtureLabels.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)];

    [Theory]
    [MemberData(nameof(Labels))]
    public void LabelsOfAnnotatedRecordingsKeepTheirSound(string label)
    {
        var chord = HarteLabel.Read(label);
        Assert.Equal(HarteLabel.Encode(label, reduceExtended: true), HarteLabel.Encode(chord, reduceExtended: true));
        Assert.Equal(chord, ChordSymbol.Read(ChordSymbol.Write(chord)));
    }
}
