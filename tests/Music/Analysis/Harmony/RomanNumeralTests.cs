using CsCheck;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Tests.Theory;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Harmony;

public class RomanNumeralTests
{
    // Figured bass: common practice in both textbooks. A bass that figures can't say is a degree behind a slash: our choice.
    [Theory]
    [InlineData("C major", "C/E", "I6")]
    [InlineData("C major", "C/G", "I6/4")]
    [InlineData("C major", "G7/B", "V6/5")]
    [InlineData("C major", "G7/D", "V4/3")]
    [InlineData("C major", "G7/F", "V4/2")]
    [InlineData("C major", "Dm7/F", "ii6/5")]
    [InlineData("C major", "Bdim/D", "viio6")]
    [InlineData("C major", "Cmaj7/E", "Imaj7/3")]
    [InlineData("C major", "F/C", "IV6/4")]
    [InlineData("C major", "G/C", "V/1")]
    [InlineData("C major", "Dm7/G", "ii7/5")]
    [InlineData("C major", "Gsus4", "Vsus4")]
    [InlineData("C major", "G7sus4", "V7sus4")]
    [InlineData("C major", "Cadd9", "Iadd9")]
    [InlineData("C major", "C6", "Iadd6")]
    [InlineData("C major", "Fm6", "ivadd6")]
    [InlineData("C major", "C6/9", "Iadd6add9")]
    [InlineData("C major", "Dm9", "ii9")]
    [InlineData("C major", "Caug", "I+")]
    [InlineData("C major", "C5", "I5")]
    [InlineData("A minor", "Am(maj7)", "imaj7")]
    public void IsWrittenAsOneReadsIt(string key, string chord, string text)
    {
        var numeral = RomanNumeral.Of(ChordSymbol.Read(chord), Key.Parse(key));
        Assert.Equal(text, numeral.ToString());
        Assert.Equal(numeral, RomanNumeral.Parse(text));
    }

    [Theory]
    [InlineData("V7/V", "D7")]
    [InlineData("viio7/ii", "C#dim7")]
    [InlineData("V6/5/V", "D7/F#")]
    [InlineData("ii7/IV", "Gm7")]
    [InlineData("V/vi", "E")]
    [InlineData("bVII", "Bb")]
    [InlineData("N6", "Db/F")]
    public void NamesAChordInAKey(string text, string chord) =>
        Assert.Equal(ChordSymbol.Read(chord), RomanNumeral.Parse(text).In(Key.Parse("C major")));

    [Theory]
    [InlineData("")]
    [InlineData("VIII")]
    [InlineData("H")]
    [InlineData("V7/")]
    [InlineData("V/8")]
    [InlineData("V7/Vx")]
    [InlineData("Vq")]
    [InlineData("I6/7")]
    public void OtherTextIsNone(string text)
    {
        Assert.False(RomanNumeral.TryParse(text, out _));
        Assert.Contains("V7/ii", Assert.Throws<FormatException>(() => RomanNumeral.Parse(text)).Message);
    }

    [Fact]
    public void WhatIsWrittenReadsBack() =>
        Gen.Select(AnyChord.Of(13), Keys, Styles).Sample((chord, key, style) =>
        {
            var numeral = RomanNumeral.Of(chord, key);
            return RomanNumeral.TryParse(numeral.ToString(style(key)), out var read, style(key)) && read == numeral;
        });

    [Fact]
    public void AppliedOnesReadBackToo() =>
        Gen.Select(AnyChord.Of(13), Keys, Gen.Int[1, 7], Styles).Sample((chord, key, degree, style) =>
        {
            var numeral = RomanNumeral.Applied(chord, key, RomanNumeral.Of(Chord.Of(key.Note(degree), ChordQuality.Minor), key));
            return RomanNumeral.TryParse(numeral.ToString(style(key)), out var read, style(key)) && read == numeral;
        });

    [Fact]
    public void NamesTheChordThatItCameFrom() =>
        Gen.Select(AnyChord.Of(13), Keys).Sample((chord, key) =>
            RomanNumeral.Of(chord, key).In(key).PitchClasses.SequenceEqual(chord.PitchClasses));

    private static Gen<Func<Key, NumeralStyle>> Styles => Gen.Bool.Select<bool, Func<Key, NumeralStyle>>(own => own ? k => NumeralStyle.AgainstScale(k.Mode)
        : _ => NumeralStyle.AgainstMajor);

    private static Gen<Key> Keys => Gen.Select(Gen.Int[-6, 6].Select(PitchName.FromFifths), Gen.Int[0, Mode.All.Length - 1], (t, m) => new Key(t, Mode.All[m]));
}
