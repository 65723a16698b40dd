using CsCheck;
using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;
using Harkbook.Music.Songs;
using Harkbook.Music.Tests.Songs;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>Whole songs. Numerals are those of the progression's usual textbook names, in "Open Music Theory" where it names them, else common
/// practice.</summary>
public class HarmonicAnalysisTests
{
    [Theory]
    [InlineData("C major", "| C | Bb | F | C |", "I bVII IV I")] // OMT: double plagal
    [InlineData("C major", "| Ab | Eb | Bb | F | C |", "bVI bIII bVII IV I")] // OMT
    [InlineData("C major", "| C | F | Fm | C |", "I IV iv I")] // INT 17b
    [InlineData("A minor", "| Am | G | F | E |", "i bVII bVI V")] // the Andalusian descent, common practice
    [InlineData("D mixolydian", "| D | C | G | D |", "I bVII IV I")]
    [InlineData("D dorian", "| Dm | G | Dm |", "i IV i")]
    [InlineData("E phrygian", "| Em | F | Em |", "i bII i")]
    [InlineData("C major", "| C | A7 | D7 | G7 | C |", "I V7/ii V7/V V7 I")] // a chain of dominants
    [InlineData("C major", "| Gm7 | C7 | F |", "ii7/IV V7/IV IV")]
    [InlineData("C major", "| C | D | C/G | G | C |", "I V/V I6/4 V I")] // home over five only delays the five chord (OMT, cadential six-four)
    [InlineData("C major", "| C | E | F |", "I III IV")] // the major three chord that goes elsewhere
    [InlineData("C major", "| C | E | Am |", "I V/vi vi")]
    [InlineData("C major", "| C | C#dim7 | Dm | D#dim7 | Em |", "I viio7/ii ii viio7/iii iii")]
    [InlineData("C major", "| C | Cdim7 | C |", "I io7 I")]
    [InlineData("C major", "| Dm | Db7 | C |", "ii bII7 I")]
    [InlineData("C minor", "| Cm | Db/F | G7 | Cm |", "i bII6 V7 i")]
    [InlineData("C minor", "| Cm | Ab7 | G | Cm |", "i Ger6/5 V i")]
    [InlineData("C major", "| C | Ab7 | F | C |", "I bVI7 IV I")] // no augmented sixth where it doesn't open out to five
    [InlineData("C minor", "| Fm | G | C |", "iv V I")]
    [InlineData("E major", "| E7#9 | G | A | E7#9 |", "I7#9 bIII IV I7#9")]
    [InlineData("C major", "| C | F#m7b5 | F | C |", "I #ivø7 IV I")]
    [InlineData("C major", "| C | F#m7b5 | G | C |", "I viiø7/V V I")]
    [InlineData("C minor", "| Cm | F7 | Cm |", "i IV7 i")]
    [InlineData("C minor", "| Cm | F7 | Bb | Cm |", "i V7/bVII bVII i")]
    public void ProgressionsHaveTheirUsualNumerals(string key, string bars, string numerals) =>
        Assert.Equal(numerals, Numerals(Tune.In(key, bars)));

    [Fact]
    public void ABluesHasSevenths()
    {
        var blues = HarmonicAnalysis.Of(Tune.In("A major", "| A7 | D7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7 |"));
        Assert.Equal("I7 IV7 I7 I7 IV7 IV7 I7 I7 V7 IV7 I7 V7", string.Join(' ', blues.Chords.Select(c => c.Reading.Numeral)));
        Assert.Equal([OriginKind.BluesSeventh, OriginKind.Native], blues.Chords.Select(c => c.Reading.Origin.Kind).Distinct());
    }

    // Modal songs: the chord is native there (OMT, modes).
    [Theory]
    [InlineData("D mixolydian", "C")]
    [InlineData("D dorian", "G")]
    [InlineData("E phrygian", "F")]
    [InlineData("F lydian", "G")]
    public void AModesOwnChordIsNative(string key, string chord) =>
        Assert.Equal(OriginKind.Native, ChordInContext.Of(ChordSymbol.Read(chord), Key.Parse(key)).Origin.Kind);

    [Fact]
    public void ChordsAreReadInTheirLocalKey()
    {
        var song = Tune.In("D major", "section A\nkey B minor from 3\nkey D major from 5\nchords | D | Em | F#7 | Bm | D |");
        Assert.Equal("I ii V7 i I", Numerals(song));
        Assert.Equal("iv", HarmonicAnalysis.Of(song).Chords[1].Pivot!.ToString());
        Assert.Null(HarmonicAnalysis.Of(song).Chords[0].Pivot);
        Assert.All(HarmonicAnalysis.Of(Tune.In("D major", "section A\nkey A major from 3\nchords | D | E | A |")).Chords, c => Assert.Null(c.Pivot));
    }

    [Fact]
    public void ATonicizationHasItsChordsAndItsHome()
    {
        var found = Assert.Single(HarmonicAnalysis.Of(Tune.In("C major", "| C | Em7b5 | A7 | Dm | G7 | C |")).Tonicizations);
        Assert.Equal(("ii", true, "Em7b5 A7 Dm"), (found.Target.ToString(), found.Arrives, string.Join(' ', found.Chords.Select(c => c.Reading.Chord))));
    }

    // Pedal and cadential six-four by their textbook definitions: the bass stays; before five, home over five only delays it.
    [Theory]
    [InlineData("D major", "| D | G/D | D | A/C# |", "G/D")]
    [InlineData("E major", "| D | A/E | Am/E | E |", "A/E Am/E")]
    [InlineData("D major", "| D | A7/D | G/D | D |", "A7/D G/D")]
    [InlineData("C major", "| F | C/G | G | C |", "")]
    [InlineData("C major", "| C | G/B | Am | F/A |", "")]
    [InlineData("C major", "| C | Em/B | Am |", "")]
    public void ABassThatStaysIsAPedal(string key, string bars, string chords) =>
        Assert.Equal(chords, string.Join(' ', HarmonicAnalysis.Of(Tune.In(key, bars)).Chords.Where(c => c.IsOverPedal).Select(c => c.Reading.Chord)));

    // Cadences by the definitions of "Open Music Theory".
    [Theory]
    [InlineData("C major", "| F | G | C |", CadenceKind.Authentic)]
    [InlineData("C major", "| Dm | Bdim/D | C |", CadenceKind.Authentic)]
    [InlineData("C major", "| G | F | C |", CadenceKind.Plagal)]
    [InlineData("C major", "| G | Fm | C |", CadenceKind.Plagal)]
    [InlineData("C major", "| C | F | G |", CadenceKind.Half)]
    [InlineData("C major", "| F | G7 | Am |", CadenceKind.Deceptive)]
    [InlineData("C minor", "| Fm | G7 | Ab |", CadenceKind.Deceptive)]
    [InlineData("C minor", "| Fm | Cm | G |", CadenceKind.Half)]
    public void SectionsEndInCadences(string key, string bars, CadenceKind kind) =>
        Assert.Equal(kind, Assert.Single(HarmonicAnalysis.Of(Tune.In(key, bars)).Cadences).Kind);

    [Theory]
    [InlineData("C major", "| C | Am |")]
    [InlineData("C major", "| C | F | G/B |")]
    [InlineData("C major", "| C | Bb | C |")]
    [InlineData("D mixolydian", "| D | C | D |")]
    [InlineData("C major", "| C |")]
    [InlineData("C major", "| . |")]
    public void OtherEndsHaveNoName(string key, string bars) => Assert.Empty(HarmonicAnalysis.Of(Tune.In(key, bars)).Cadences);

    [Fact]
    public void TransposingChangesNoNumeral() =>
        Gen.Select(SongGen.Songs, Gen.Int[-6, 6]).Sample((song, fifths) =>
        {
            var moved = song.Transposed(Interval.Between(default, PitchName.FromFifths(fifths)));
            return Outline(moved).SequenceEqual(Outline(song)) && moved.Transposed(-Interval.Between(default, PitchName.FromFifths(fifths))) == song;
        }, iter: 300);

    [Fact]
    public void AnotherSpellingOfTheWholeSongChangesNoNumeralAndNoSound() =>
        Gen.Select(SongGen.Songs, Gen.Bool).Sample((song, up) =>
        {
            var comma = Interval.Parse("d2");
            var moved = song.Transposed(up ? comma : -comma);
            return Outline(moved).SequenceEqual(Outline(song)) && Sounds(moved).SequenceEqual(Sounds(song));
        }, iter: 300);

    [Fact]
    public void AnyThreeChordsReadTheSameInEveryKey() =>
        Gen.Select(PlayedChord.Array[3], Gen.Int[0, Mode.All.Length - 1], Gen.Int[-5, 6], Gen.Bool).Sample((chords, mode, fifths, isBlues) =>
        {
            var home = new Key(PitchName.FromFifths(0), Mode.All[mode]);
            var by = Interval.Between(home.Tonic, PitchName.FromFifths(fifths));
            var here = ChordInContext.Of(chords[1], home, chords[0], chords[2], isBlues);
            var there = ChordInContext.Of(chords[1].Transposed(by), home with { Tonic = home.Tonic + by }, chords[0].Transposed(by),
                chords[2].Transposed(by), isBlues);
            return (here.Numeral, here.Function, here.Origin) == (there.Numeral, there.Function, there.Origin) && here.Reasons.Length == there.Reasons.Length;
        }, iter: 3_000);

    [Fact]
    public void EveryNumeralNamesTheChordThatSounds() =>
        Gen.Select(PlayedChord.Array[3], Gen.Int[0, Mode.All.Length - 1], Gen.Int[-5, 6], Gen.Bool).Sample((chords, mode, fifths, isBlues) =>
        {
            var key = new Key(PitchName.FromFifths(fifths), Mode.All[mode]);
            var numeral = ChordInContext.Of(chords[1], key, chords[0], chords[2], isBlues).Numeral!;
            return numeral.In(key).PitchClasses.SequenceEqual(chords[1].PitchClasses) && numeral.In(key).Bass.PitchClass == chords[1].Bass.PitchClass
                && RomanNumeral.Parse(numeral.ToString()) == numeral;
        }, iter: 3_000);

    [Fact]
    public void AWrongSpellingOfOneChordChangesNoNumeral() =>
        Assert.Equal(Numerals(Tune.In("C major", "| C | Ab | Bb | Ebm | C |")), Numerals(Tune.In("C major", "| C | G# | A# | D#m | C |")));

    private static readonly string[] Kinds =
        ["", "m", "5", "dim", "aug", "sus4", "sus2", "add9", "6", "m6", "7", "maj7", "m7", "m(maj7)", "dim7", "dim9", "m7b5", "7sus4", "9", "m9", "13", "7#5",
            "7b5", "7b9", "7#9", "maj7#11", "7alt"];

    private static Gen<Chord> PlayedChord => Gen.Select(Gen.Int[-6, 8], Gen.Int[0, Kinds.Length - 1], Gen.Int[-6, 8], Gen.Bool, (root, kind, bass, isSlash) =>
        ChordSymbol.Read(PitchName.FromFifths(root) + Kinds[kind] + (isSlash ? "/" + PitchName.FromFifths(bass) : "")));

    private static IEnumerable<int> Sounds(Song song) =>
        song.Bars.SelectMany(b => b.Chords.SelectMany(c => c.Value.Chord.PitchClasses)).Concat(song.Tuning.Value.Strings.Select(s => s.Midi));

    private static IEnumerable<object?> Outline(Song song)
    {
        var analysis = HarmonicAnalysis.Of(song);
        return analysis.Chords.Select(c => (object?)(c.Place, c.Reading.Numeral, c.Reading.Function, c.Reading.Origin, c.Pivot, c.IsOverPedal))
            .Concat(analysis.Cadences).Concat(analysis.Tonicizations.Select(t => (object?)(t.Target, t.Arrives, t.Chords.Length)));
    }

    private static string Numerals(Song song) => string.Join(' ', HarmonicAnalysis.Of(song).Chords.Select(c => c.Reading.Numeral));
}
