using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>What every player learns (common practice), and the spelling of degrees by the line of fifths.</summary>
public class TradeFactTests
{
    [Theory]
    [InlineData("C", "C F G")]
    [InlineData("G", "G C D")]
    [InlineData("D", "D G A")]
    [InlineData("A", "A D E")]
    [InlineData("E", "E A B")]
    [InlineData("B", "B E F#")]
    [InlineData("F#", "F# B C#")]
    [InlineData("F", "F Bb C")]
    [InlineData("Bb", "Bb Eb F")]
    [InlineData("Eb", "Eb Ab Bb")]
    [InlineData("Ab", "Ab Db Eb")]
    [InlineData("Db", "Db Gb Ab")]
    [InlineData("Gb", "Gb Cb Db")]
    public void OneFourAndFive(string key, string chords) => AssertChords(key, "I IV V", chords);

    // The chord on the sixth degree of major is minor, on that of the parallel minor major and a half step lower.
    [Theory]
    [InlineData("C", "Am", "Ab")]
    [InlineData("G", "Em", "Eb")]
    [InlineData("D", "Bm", "Bb")]
    [InlineData("A", "F#m", "F")]
    [InlineData("E", "C#m", "C")]
    public void TheSixChordOfMajorAndOfItsParallelMinor(string tonic, string inMajor, string inMinor)
    {
        Assert.Equal(inMajor, Key.Parse(tonic + " major").Triad(6).ToString());
        Assert.Equal(inMinor, Key.Parse(tonic + " minor").Triad(6).ToString());
        Assert.Equal(["vi", "bVI"], new[] { inMajor, inMinor }.Select(c => RomanNumeral.Of(ChordSymbol.Read(c), Key.Parse(tonic + " major")).ToString()));
    }

    [Theory]
    [InlineData("C", "A")]
    [InlineData("G", "E")]
    [InlineData("D", "B")]
    [InlineData("A", "F#")]
    [InlineData("E", "C#")]
    [InlineData("F", "D")]
    [InlineData("Bb", "G")]
    [InlineData("Eb", "C")]
    public void RelativeKeysShareTheirNotes(string major, string minor)
    {
        var (one, other) = (Key.Parse(major + " major"), Key.Parse(minor + " minor"));
        Assert.Equal(one.Notes.ToHashSet(), other.Notes.ToHashSet());
        Assert.Equal("vi", RomanNumeral.Of(Chord.Of(other.Tonic, ChordQuality.Minor), one).ToString());
    }

    // C major shares two notes with C minor, E minor and A minor and with no other triad: the neo-Riemannian P, L and R.
    [Fact]
    public void TriadsThatShareTwoNotes()
    {
        var home = ChordSymbol.Read("C");
        var sharing = from root in Enumerable.Range(-5, 12).Select(PitchName.FromFifths)
                      from quality in new[] { ChordQuality.Major, ChordQuality.Minor }
                      let triad = Chord.Of(root, quality)
                      where triad.PitchClasses.Intersect(home.PitchClasses).Count() == 2
                      select triad.ToString();
        Assert.Equal(["Am", "Cm", "Em"], sharing.Order());
    }

    // Intervals of the line of fifths: bII -5, bIII -3, bVI -4, bVII -2, iii +4, vii +5; C, E and Ab also as the library tonal has them.
    [Theory]
    [InlineData("C", "Db Eb Ab Bb Em Bdim")]
    [InlineData("E", "F G C D G#m D#dim")]
    [InlineData("B", "C D G A D#m A#dim")]
    [InlineData("F#", "G A D E A#m E#dim")]
    [InlineData("Db", "Ebb Fb Bbb Cb Fm Cdim")]
    [InlineData("Ab", "Bbb Cb Fb Gb Cm Gdim")]
    public void DegreesAreSpelledByFunction(string key, string chords) => AssertChords(key, "bII bIII bVI bVII iii viio", chords);

    private static void AssertChords(string key, string numerals, string chords) =>
        Assert.Equal(chords, string.Join(' ', numerals.Split(' ').Select(n => RomanNumeral.Parse(n).In(Key.Parse(key + " major")))));
}
