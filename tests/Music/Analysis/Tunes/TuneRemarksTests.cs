using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis.Tunes;

/// <summary>
/// What is said of tunes that textbooks and players know, old ones in nobody's possession, taken down from memory: "Amazing Grace" is the textbook's
/// major pentatonic, "Drunken Sailor" its dorian (Open Music Theory, modes and pentatonic scales; common practice).
/// </summary>
public class TuneRemarksTests
{
    /// <summary>New Britain, in G: G B G B A G E D.</summary>
    private const string Grace = "key G major\nmeter 3/4\ntune voice\nsection A\nchords | G | G | G | C | G | G | D | D |\n"
        + "tune | . . D4 | G4 . B4,G4 | B4 . A4 | G4 . E4 | D4 . D4 | G4 . B4,G4 | B4 . A4 | D5 . . |\n";

    private const string Sailor = "key D minor\nmeter 2/4\ntune fiddle\nsection A\nchords | Dm | Dm | C | C | Dm | Dm | C | Dm |\n"
        + "tune | A4,A4 A4,A4 | A4,D4 F4,A4 | G4,G4 G4,G4 | G4,C4 E4,G4 | A4,A4 A4,A4 | A4,B4 C5,D5 | C5,A4 G4,E4 | D4 D4 |\n";

    [Fact]
    public void APentatonicTuneIsToldByItsScale() =>
        Assert.Equal("The voice keeps to the G major pentatonic scale, G, A, B, D and E.", Said(Grace, RemarkKind.TuneScale));

    /// <summary>B natural over D minor.</summary>
    [Fact]
    public void ADorianTuneIsToldThoughTheKeyLineSaysMinor() =>
        Assert.Equal("The fiddle keeps to the D dorian scale, D, E, F, G, A, B and C.", Said(Sailor, RemarkKind.TuneScale));

    [Fact]
    public void AMinorPentatonicOverAMajorHomeChordIsToldSo() =>
        Assert.Equal("The voice keeps to the A minor pentatonic scale, A, C, D, E and G, over a major home chord, as blues and rock do.",
            Said("key A major\ntune voice\nsection A\nchords | A7 | D7 |\ntune | A4 C5 D5 E5 | G5 E5 D5 C5 |\n", RemarkKind.TuneScale));

    [Fact]
    public void ATuneOfBothThirdsAndSeventhsKeepsToNoScale() =>
        Assert.Equal("The voice keeps to no one scale: beside the notes of C major it has B flat, E flat and A flat.",
            Said("key C major\ntune voice\nsection A\nchords | C | F |\ntune | C5,B4 Bb4,B4 E4,Eb4 E4,D4 | Ab4,A4 G4,F4 E4 C4 |\n", RemarkKind.TuneScale));

    /// <summary>Tenor C3 to G4, alto G3 to D5, soprano C4 to G5, bass E2 to C4: part-writing as harmony textbooks teach it.</summary>
    [Theory]
    [InlineData("D4 . D5 .", "The voice goes from D 4 to D 5, which a soprano or an alto has.")]
    [InlineData("E2 . E3 .", "The voice goes from E 2 to E 3, which a bass has.")]
    [InlineData("C3 . D5 .", "The voice goes from C 3 to D 5; no one part of a choir is written for all of that.")]
    public void TheRangeNamesThePartsThatHaveIt(string notes, string words) =>
        Assert.Equal(words, Said($"tune voice\nsection A\nchords | C |\ntune | {notes} |\n", RemarkKind.TuneRange));

    /// <summary>A record a semitone sharp (466.16 Hz) takes the alto's highest D5 up to where no alto part goes.</summary>
    [Fact]
    public void TheRangeIsThatOfTheRecordsPitch() => Assert.Equal("The voice goes from D 4 to D 5, which a soprano has.",
        Said("pitch 466.16\ntune voice\nsection A\nchords | C |\ntune | D4 . D5 . |\n", RemarkKind.TuneRange));

    /// <summary>E is the third of C and the sixth of G.</summary>
    [Fact]
    public void StrongBeatsAreToldByTheirDegrees() => Assert.Equal(
        "On strong beats the voice has a note of the chord three times of four, always its third; the others are the sixth of G.",
        Said("tune voice\nsection A\nchords | C | G |\ntune | E4 F4 E4 F4 | B4 A4 E4 D4 |\n", RemarkKind.TuneStrongBeats));

    /// <summary>Flat third and flat seventh in A major: C and G; over A7 the G is the chord's own and no blue note.</summary>
    [Fact]
    public void BlueNotesAreThoseForeignToTheirChord() => Assert.Equal("The voice has blue notes: C, the flat third, twice.",
        Said("key A major\ntune voice\nsection A\nchords | A7 | A7 |\ntune | C5 A4 G4 E4 | C5 B4 A4 _ |\n", RemarkKind.TuneBlueNotes));

    [Fact]
    public void AQuarterToneIsABlueNoteToo() => Assert.Contains("each bent a quarter tone up",
        Said("key A major\ntune voice\nsection A\nchords | A | A |\ntune | C5b+1/2 A4 C#5 E4 | A4 B4 A4 _ |\n", RemarkKind.TuneBlueNotes));

    [Fact]
    public void CallAndResponseIsToldByWhoRests()
    {
        const string Head = "harp C\ntune voice\nsection A\nchords | C | C | C | C |\ntune | C4 D4 E4 _ | _ | C4 D4 E4 _ | _ |\nharp ";
        Assert.Equal("The harmonica answers the voice: all four notes beside it start where the voice rests.",
            Said(Head + "| _ | +4 +5 . _ | _ | +4 +5 . _ |\n", RemarkKind.TuneAnswered));
        Assert.Equal("The harmonica goes along with the voice: all four notes beside it start while the voice sounds.",
            Said(Head + "| +4 -4 _ . | _ | +4 -4 _ . | _ |\n", RemarkKind.TuneAnswered));
    }

    /// <summary>D over C is a passing tone between C and E; Open Music Theory.</summary>
    [Fact]
    public void NotesBetweenChordTonesAreNamedAsTextbooksDo() => Assert.Equal(
        "The tune stays on notes of the chord with three of its four notes; of the others one passes by step.",
        Said("tune voice\nsection A\nchords | C |\ntune | C4 D4 E4 G4 |\n", RemarkKind.MelodyTones));

    /// <summary>No seventh in it: whether its scale is G major or mixolydian can't be heard from it.</summary>
    [Fact]
    public void ANoteThatTheTuneNeverHasIsSaid() => Assert.EndsWith("though it never has F sharp.",
        Said("key G major\ntune voice\nsection A\nchords | G | C |\ntune | G4 A4 B4 C5 | D5 E5 D5 C5 |\n", RemarkKind.TuneScale));

    private static string Said(string text, RemarkKind kind)
    {
        var document = SongText.Parse("title T\n" + text, "t.hark");
        Assert.NotNull(document.Song);
        return Assert.Single(Explanation.Of(document.Song).Remarks, r => r.Kind == kind).Sentence;
    }
}
