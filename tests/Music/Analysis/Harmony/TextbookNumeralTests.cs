using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>
/// Cases of two open textbooks and a library's own tests: INT is "Integrated Music Theory 2018–19" (chapters 17a, 17b, 18a), OMT "Open Music
/// Theory" (modal mixture, applied chords, pop/rock harmony), music21 the doc tests of that library's roman module; "spelling" is the line of
/// fifths. A small tonic means minor.
/// </summary>
public class TextbookNumeralTests
{
    [Theory]
    [InlineData("C", "Fm", "iv", true)] // INT 17a, 17b
    [InlineData("C", "Ab", "bVI", true)] // INT, OMT
    [InlineData("C", "Bb", "bVII", true)] // INT
    [InlineData("C", "Eb", "bIII", true)] // INT
    [InlineData("C", "Ddim", "ii°", true)] // INT
    [InlineData("C", "Dm7b5", "iiø7", true)] // INT 17b
    [InlineData("C", "Bdim7", "vii°7", true)] // INT
    [InlineData("C", "Bm7b5", "viiø7", false)] // INT, OMT
    [InlineData("C", "Cm", "i", true)] // INT
    [InlineData("C", "Ebaug", "bIII+", true)] // the augmented three of harmonic minor
    [InlineData("C", "Fmaj7#11", "IVM7(#11)", false)] // INT 17b
    [InlineData("C", "Db", "bII", true)] // INT 18a: from phrygian
    [InlineData("C", "Db/F", "N6", true)] // OMT
    [InlineData("C", "F#dim", "vii°/V", false)] // OMT
    [InlineData("C", "D G", "V/V", false)] // music21, OMT
    [InlineData("C", "C7", "V7/IV", false)] // INT 17a
    [InlineData("Eb", "F7", "V7/V", false)] // OMT
    [InlineData("F", "Bbm", "iv", true)] // music21
    [InlineData("F", "Bb", "IV", false)] // music21
    [InlineData("F", "Ab", "bIII", true)] // the parallel minor's chords
    [InlineData("F", "Db", "bVI", true)]
    [InlineData("F", "Eb", "bVII", true)]
    [InlineData("F", "Cm", "v", true)]
    [InlineData("F", "Gdim", "iio", true)]
    [InlineData("F", "Fm", "i", true)]
    [InlineData("Db", "Dbm", "i", true)] // music21
    [InlineData("G", "Cm7/Eb", "iv65", true)] // music21
    [InlineData("C", "Cm7", "i7", true)] // music21
    [InlineData("Bb", "Am7b5", "viiø7", false)] // music21
    [InlineData("c", "Am7b5", "viø7", null)] // music21
    [InlineData("c", "C", "I", true)] // INT, OMT: Picardy third
    [InlineData("c", "F", "IV", true)] // INT
    [InlineData("c", "G", "V", false)] // OMT
    [InlineData("c", "G7", "V7", false)] // OMT
    [InlineData("c", "Bdim", "vii°", false)] // OMT
    [InlineData("c", "Ab", "bVI", false)] // music21, OMT pop/rock
    [InlineData("c", "Bb", "bVII", false)] // music21, OMT pop/rock
    [InlineData("a", "F", "bVI", false)] // OMT pop/rock
    [InlineData("a", "G", "bVII", false)]
    [InlineData("a", "Am", "i", false)]
    [InlineData("C", "Am", "vi", false)] // OMT
    [InlineData("F", "C7/E", "V65", false)] // music21
    [InlineData("E", "C", "bVI", true)] // spelling
    [InlineData("E", "D", "bVII", true)]
    [InlineData("E", "G", "bIII", true)]
    [InlineData("A", "F", "bVI", true)]
    [InlineData("A", "G", "bVII", true)]
    [InlineData("A", "Dm", "iv", true)]
    [InlineData("A", "C", "bIII", true)]
    [InlineData("G", "Eb", "bVI", true)]
    [InlineData("G", "F", "bVII", true)]
    [InlineData("G", "Cm", "iv", true)]
    [InlineData("G", "Bb", "bIII", true)]
    public void ReadsAsTheBookDoes(string key, string chords, string numeral, bool? borrowed)
    {
        var reading = Read(key, chords);
        Assert.Equal(RomanNumeral.Parse(numeral), reading.Numeral);
        Assert.True(borrowed is null || borrowed == reading.Origin.IsBorrowed, $"{reading.Origin.Kind}");
    }

    // Signs against the key's own scale: INT, OMT. The same chords bear bVI, bVII and vi under the rule of the test above.
    [Theory]
    [InlineData("c", "Am", "#vi")]
    [InlineData("c", "Ab", "VI")]
    [InlineData("c", "Bb", "VII")]
    [InlineData("c", "Eb", "III")]
    [InlineData("c", "Bdim", "viio")]
    [InlineData("c", "Bdim7", "viio7")]
    [InlineData("c", "G", "V")]
    [InlineData("C", "Ab", "bVI")]
    public void BooksThatCountOnTheKeysOwnScaleAreAnOption(string key, string chord, string numeral)
    {
        var style = NumeralStyle.AgainstScale(KeyOf(key).Mode);
        var reading = Read(key, chord);
        Assert.Equal(numeral, reading.Numeral!.ToString(style));
        Assert.Equal(reading.Numeral, RomanNumeral.Parse(numeral, style));
    }

    // music21, doc tests of roman: Eb G C#, with Bb, with A, in G, whatever its mode. As guitarists write them, before the five chord.
    [Theory]
    [InlineData("g", "Eb7(no5) D", "It6")]
    [InlineData("G", "Eb7 D", "Ger6/5")]
    [InlineData("G", "Eb7b5 D", "Fr4/3")]
    [InlineData("C", "Ab7 C/G", "Ger65")]
    public void AugmentedSixthsAreNeverMixture(string key, string chords, string numeral)
    {
        var reading = Read(key, chords);
        Assert.Equal(RomanNumeral.Parse(numeral), reading.Numeral);
        Assert.Equal((OriginKind.AugmentedSixth, false), (reading.Origin.Kind, reading.Origin.IsBorrowed));
    }

    [Theory]
    [InlineData("a", "i bVI bIII bVII")] // OMT: Am F C G has two readings
    [InlineData("C", "vi IV I V")]
    public void FourChordsReadInEitherKey(string key, string numerals) =>
        Assert.Equal(numerals, string.Join(' ', new[] { "Am", "F", "C", "G" }.Select(c => Read(key, c).Numeral)));

    private static ChordInContext Read(string key, string chords)
    {
        var read = chords.Split(' ').Select(ChordSymbol.Read).ToList();
        return ChordInContext.Of(read[0], KeyOf(key), null, read.Count > 1 ? read[1] : null);
    }

    private static Key KeyOf(string tonic) => new(PitchName.Parse(char.ToUpperInvariant(tonic[0]) + tonic[1..]), char.IsLower(tonic[0])
        ? Mode.Minor : Mode.Major);
}
