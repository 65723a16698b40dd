using CsCheck;
using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Harmony.Remarks;
using Harkbook.Music.Songs;
using Harkbook.Music.Tests.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Analysis.Harmony;

/// <summary>A planted feature is told with its places; a plain song is told plainly; nothing is invented.</summary>
public class HarmonyRemarksTests
{
    [Theory]
    [InlineData("C major", "| C | F | G | C |")]
    [InlineData("G major", "| G | Em | C | D7 | G |")]
    [InlineData("A minor", "| Am | Dm | E7 | Am |")]
    [InlineData("A minor", "| Am | G | F | E | Am |")]
    public void APlainSongIsToldInOneRemark(string key, string bars) =>
        Assert.Equal(RemarkKind.KeyOfTheSong, Assert.Single(Of(Tune.In(key, bars))).Kind);

    [Fact]
    public void TheKeyHasItsScale() =>
        Assert.Equal("The song is in D major: D, E, F sharp, G, A, B and C sharp.", Of(Tune.In("D major", "| D |"))[0].Sentence);

    [Fact]
    public void AModeIsToldApart() => Assert.Equal(
        "The song is in D dorian: D, E, F, G, A, B and C. Its sixth, B, sets it apart from D minor.", Of(Tune.In("D dorian", "| Dm | G |"))[0].Sentence);

    [Theory]
    [InlineData("D major", "| D | G | Gm | D | Gm D |", RemarkKind.BorrowedChord, "The four chord turns minor: G minor is borrowed from D minor.", "3 5")]
    [InlineData("D major", "| D | C | G | A | D |", RemarkKind.BorrowedChord,
        "The flat seven chord, C, is borrowed from D minor. D mixolydian, which differs from D major in one note, has it too.", "2")]
    [InlineData("C major", "| C | Db/F | G7 | C |", RemarkKind.BorrowedChord,
        "The flat two chord, D flat, is the Neapolitan of the textbooks; C phrygian holds it.", "2")]
    [InlineData("C minor", "| Cm | G7 | C |", RemarkKind.BorrowedChord, "The one chord turns major: C is borrowed from C major.", "3")]
    [InlineData("D major", "| D | E7 | A | D |", RemarkKind.AppliedChord,
        "E seven is the five chord of A, the five chord, as if that were home, and A follows.", "2")]
    [InlineData("D major", "| D | E7 | G | A | D |", RemarkKind.AppliedChord,
        "E seven is the five chord of A, the five chord, as if that were home, but A does not follow.", "2")]
    [InlineData("C major", "| C | C#dim7 | Dm | G | C |", RemarkKind.AppliedChord,
        "C sharp diminished seven leads up a half step to D minor, the two chord, as if that were home, and D minor follows.", "2")]
    [InlineData("C major", "| C | Gm7 | C7 | F | G | C |", RemarkKind.AppliedChord,
        "G minor seven is the two chord of F, the four chord, as if that were home, whose five chord follows.", "2")]
    [InlineData("C minor", "| Cm | Ab7 | G | Cm |", RemarkKind.ChromaticChord,
        "A flat seven opens out to the five chord: textbooks call it an augmented sixth, the German one.", "2")]
    [InlineData("C major", "| C | E | F | G | C |", RemarkKind.ChromaticChord,
        "The three chord, E, lies a third from home and is not the key's own; textbooks call it a chromatic mediant.", "2")]
    [InlineData("C major", "| C | Dm | Db7 | C |", RemarkKind.ChromaticChord, "D flat seven stands for the five chord and falls a half step home.", "3")]
    [InlineData("C major", "| C | F | G7b9 | C |", RemarkKind.ChromaticChord,
        "G seven flat nine is the five chord with a note of colour: A flat is not in C major.", "3")]
    [InlineData("D major", "| D | Daug | G | A | D |", RemarkKind.AppliedChord,
        "D augmented is the five chord of G, the four chord, as if that were home, and G follows.", "2")]
    [InlineData("D major", "| D | Daug | Bm | A | D |", RemarkKind.ChromaticChord,
        "The one chord turns augmented: D augmented. A sharp is not in D major.", "2")]
    [InlineData("E phrygian", "| Em | B7 | Em |", RemarkKind.ChromaticChord,
        "The five chord turns major: B seven. D sharp and F sharp are not in E phrygian.", "2")]
    [InlineData("D mixolydian", "| D | C | D |", RemarkKind.ModalSong,
        "The flat seven chord, C, is native to D mixolydian; in D major it would be borrowed.", "2")]
    [InlineData("D major", "| D | C | G | D |", RemarkKind.ModalSong, "Every chord fits D mixolydian, where C is native.", "2")]
    [InlineData("A major", "| A7 | D7 | A7 | E7 | A7 |", RemarkKind.BluesSeventh, "The one and four chords have sevenths that lead nowhere, as in a blues: A "
        + "seven and D seven. The seventh of the four chord, C, is the minor third of A.", "1 2 3 5")]
    [InlineData("D major", "| D | G/D | D | A | D |", RemarkKind.PedalBass,
        "G over D is the four chord over the home note, D, which stays in the bass while the chord changes.", "2")]
    [InlineData("E major", "| E | A/E | Am/E | E | B | E |", RemarkKind.PedalBass,
        "A over E and A minor over E are the four chord over the home note, E, which stays in the bass while the chord changes.", "2 3")]
    [InlineData("C major", "| C | Bdim | C |", RemarkKind.UnusualRoot, "B diminished stands on seven, which is seldom a root.", "2")]
    [InlineData("C major", "| C | F | G |", RemarkKind.SectionCadence, "S1 ends on the five chord, left open, which textbooks call a half cadence.", "3")]
    [InlineData("C major", "| C | G | F | C |", RemarkKind.SectionCadence,
        "S1 ends by coming home from the four chord, which textbooks call a plagal cadence.", "4")]
    public void APlantedFeatureIsTold(string key, string bars, RemarkKind kind, string sentence, string places)
    {
        var remarks = Of(Tune.In(key, bars));
        var found = Assert.Single(remarks, r => r.Sentence == sentence);
        Assert.Equal(kind, found.Kind);
        Assert.Equal(places, string.Join(' ', found.Places.Select(p => p.Bar)));
        Assert.All(remarks, r => Assert.NotEmpty(r.Facts));
    }

    [Fact]
    public void ABluesHasItsForm()
    {
        var remarks = Of(Tune.In("A major", "section Verse\nchords | A7 | D7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7 |"));
        Assert.Contains(remarks, r => r is { Kind: RemarkKind.TwelveBarBlues, Sentence: "Verse is a twelve-bar blues.", Places.Length: 12 });
        Assert.DoesNotContain(Of(Tune.In("A major", "| A7 | A7 | A7 | A7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 |")), r => r.Kind == RemarkKind.TwelveBarBlues);
        Assert.DoesNotContain(Of(Tune.In("A major", "| A7 | A7 | A7 | D7 | D7 | D7 | A7 | A7 | E7 | D7 | A7 | E7 |")),
            r => r.Kind == RemarkKind.TwelveBarBlues);
    }

    // Minor melody over major chords: common practice of the blues.
    [Fact]
    public void AMinorThirdOverTheMajorHomeChordIsTold()
    {
        var song = Tune.In("A major", "section Verse\nchords | A . . . | D . . . | Am . . . |\npick\n  A2 | 0 3 4 0 | 3 . . . | 3 . . . |");
        var remark = Assert.Single(Of(song), r => r.Kind == RemarkKind.BlueThird);
        Assert.Equal("The highest picked voice has C, the minor third of A, over the major home chord, as in a blues.", remark.Sentence);
        Assert.Equal([(1, 1.0)], remark.Places.Select(p => (p.Bar, p.Start.Value)));
    }

    [Theory]
    [InlineData("C major", "| C | G# | A# | C |", "The root written G sharp is A flat in C major: the flat six chord.")]
    [InlineData("C major", "| C | Dbdim7 | Dm |", "The root written D flat is C sharp in C major: the sharp one chord.")]
    public void ARootWrittenAgainstItsFunctionIsTold(string key, string bars, string sentence) =>
        Assert.Contains(Of(Tune.In(key, bars)), r => r.Kind == RemarkKind.OtherSpelling && r.Sentence == sentence);

    [Theory]
    [InlineData("C major", "| C | Ab | Bb | F#dim7 | C/G | Bdim7 | C | Gb7 | F |")]
    [InlineData("Db major", "| Db | A | Ab | Db |")]
    public void RootsOfTheirFunctionAreNot(string key, string bars) =>
        Assert.DoesNotContain(Of(Tune.In(key, bars)), r => r.Kind == RemarkKind.OtherSpelling);

    [Fact]
    public void AChangeOfKeyIsToldWithTheChordThatJoins()
    {
        var remark = Assert.Single(Of(Tune.In("D major", "section A\nkey B minor from 3\nchords | D | Em | F#7 | Bm |")), r => r.Kind == RemarkKind.KeyChange);
        Assert.Equal("Bars 3 to 4 are in B minor, which has the same notes as D major. E minor belongs to both keys and joins them.", remark.Sentence);
        Assert.Equal([3, 4], remark.Places.Select(p => p.Bar));
    }

    [Fact]
    public void HowUsualARootIsIsToldByItsMeasure()
    {
        var remark = Assert.Single(Of(Tune.In("D major", "| D | C | G | A | D |")), r => r.Kind == RemarkKind.BorrowedChord);
        Assert.Equal(new(Frequency.Usual, "flat seven is the root of about 8% of chords in rock (after de Clercq and Temperley 2011)"), remark.Usualness);
    }

    // The seventh of IV7 is the minor third of the key: common practice, in every key.
    [Fact]
    public void TheFourChordsSeventhIsTheKeysMinorThird() => Assert.All(Enumerable.Range(-5, 12), fifths =>
    {
        var key = new Key(PitchName.FromFifths(fifths), Mode.Major);
        var four = Chord.Of(key.Note(4), ChordQuality.Dominant7);
        var remark = Assert.Single(Of(Tune.In(key.ToString(), $"| {key.Tonic} | {four} | {key.Tonic} |")), r => r.Kind == RemarkKind.BluesSeventh);
        Assert.Contains($"{ChordSpeech.Of(key.Note(3, -1))}, is the minor third of {ChordSpeech.Of(key.Tonic)}.", remark.Sentence);
        Assert.Equal(key.Note(3, -1), four.Notes[3]);
    });

    [Fact]
    public void AnySongIsToldWithFactsAndPlacesOfItsOwnAndCanBeReadAloud() => SongGen.Songs.Sample(song =>
    {
        var bars = song.Bars.Select(b => b.Number).ToHashSet();
        return Of(song).All(r => r.Facts.Length > 0 && r.Places.All(p => bars.Contains(p.Bar)) && r.Sentence.EndsWith('.')
            && (r.Kind is RemarkKind.SectionCadence or RemarkKind.TwelveBarBlues or RemarkKind.NoHomeChord || !r.Sentence.Contains('#')));
    }, iter: 60);

    [Fact]
    public void TransposingASongMovesOnlyTheNamesInItsRemarks() => Gen.Select(SongGen.Songs, Gen.Int[-6, 6]).Sample((song, fifths) =>
    {
        var moved = song.Transposed(Interval.Between(default, PitchName.FromFifths(fifths)));
        return Outline(moved).SequenceEqual(Outline(song));
    }, iter: 60);

    /// <summary>Spelling apart: a name that needs a double sign in one key needs none in another.</summary>
    private static IEnumerable<object> Outline(Song song) => Of(song).Where(r => r.Kind != RemarkKind.OtherSpelling)
        .Select(r => (object)(r.Kind, string.Join(' ', r.Places), r.Usualness, r.Facts.Length));

    private static List<Remark> Of(Song song) => [.. HarmonyRemarks.Of(song)];
}
