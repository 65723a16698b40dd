using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Rhythm;

public class SungRhythmTests
{
    private const string Verse = """
        section Verse
        strum | d . d . d . d . | d . d . d . d . | d . d . d . d . | d . d . d . d . |
        """;

    [Fact]
    public void TheTwoLinesMeet()
    {
        var bar = AnySong.Of("section A\nstrum | d . d d |\nsung | one .,two . and |\n").Bars.Single();
        Assert.Equal(
            ["0 one True", "3/2 two False", "2  True", "3 and True"],
            TwoParts.Of(bar).Meetings.Select(m => $"{m.At} {m.Syllable} {m.GuitarStrikes}"));
    }

    [Fact]
    public void APlainSongGetsOneRemark()
    {
        var remark = Assert.Single(SungRhythmRemarks.Of(AnySong.Of(Verse + "\nsung | down to the bay | down to the bay | down to the bay | home . . _ |")));
        Assert.Equal("All 13 syllables fall on a stroke or a picked note of the guitar.", remark.Sentence);
    }

    [Fact]
    public void LateEntriesAreFound()
    {
        var song = AnySong.Of(Verse + "\nsung | _ down . to | _ down . to | _ down . to | home . . _ |");
        var remark = Of(song, RemarkKind.VoiceEntersLate);
        Assert.Equal("The voice comes in after the first beat in three of four sung bars, always on two.", remark.Sentence);
        Assert.Equal([1, 2, 3], remark.Places.Select(p => p.Bar));
    }

    // "lan-" starts an eighth before bar 2 and holds over its first beat; "ry" half a beat before three.
    [Fact]
    public void WordsBeforeTheBeatAreFound()
    {
        var song = AnySong.Of(Verse + "\nsung | . . . . . . . lan- | . . tern . . . . . | fer- . . ry . . . . | _ |");
        var remarks = SungRhythmRemarks.Of(song).Where(r => r.Kind == RemarkKind.VoiceAnticipates).ToArray();
        Assert.Equal(
            ["In one place the voice comes an eighth before the bar and holds over it, as on \"lan\".",
                "In one place the voice comes an eighth before the middle of the bar and holds over it, as on \"ry\"."],
            remarks.Select(r => r.Sentence));
        Assert.Equal([new SongPlace(1, Beats.Fraction(7, 2), Beats.Fraction(1, 2))], remarks[0].Places);
        // By hand: 4& against bar 2's first beat 3, two against three 1, 2& against three 2 and against bar 4's first beat 3; three bars are sung in.
        var pull = Of(song, RemarkKind.SungSyncopation);
        Assert.StartsWith("The singing is syncopated: in every sung bar a syllable leaves the stronger beat after it unsung.", pull.Sentence);
        Assert.StartsWith("3.00,", pull.Facts[0].Value);
    }

    // Cells are beats: in each bar "oh" falls on the stroke of one, "far" and "way" on the off-beats of two and three.
    [Fact]
    public void WordsBetweenStrokesAreCounted() =>
        Assert.Equal(
            "Voice and guitar strike together on two of six syllables; the others fall between the strokes, most often on the and of two.",
            Of(AnySong.Of("section A\nstrum | d d d d | d d d d |\nsung | oh .,far .,way . | oh .,far .,way . |\n"), RemarkKind.VoiceAgainstGuitar).Sentence);

    [Fact]
    public void VoiceAndGuitarMayNeverMeet() =>
        Assert.Equal(
            "Voice and guitar never strike together: every syllable falls between the guitar's strokes, all on the and of four.",
            Of(AnySong.Of("section A\nstrum | d d d d | d d d d |\nsung | . . . .,oh | . . . .,oh |\n"), RemarkKind.VoiceAgainstGuitar).Sentence);

    [Fact]
    public void HeardSyllablesAreSaidToBeHeard()
    {
        var remarks = SungRhythmRemarks.Of(AnySong.Of("section A\nstrum | d d d d |\nsung | _ x . x | ~heard 50%\n")).ToArray();
        Assert.EndsWith("That is so if the syllables are heard rightly; no person has decided them yet.", remarks[0].Sentence);
    }

    [Fact]
    public void WhereAPersonHasDecidedSomeSyllablesMostAreSaidToBeUndecided()
    {
        var remarks = SungRhythmRemarks.Of(AnySong.Of("section A\nstrum | d d d d | d d d d |\nsung | _ x . x | _ x . . | ~heard 50%  ~bar 2 decided\n"))
            .ToArray();
        Assert.EndsWith("no person has decided most of them yet.", remarks[0].Sentence);
    }

    [Fact]
    public void ASongWithoutWordsGetsNone() => Assert.Empty(SungRhythmRemarks.Of(AnySong.Of("section A\nstrum | d d d d |\n")));

    private static Remark Of(Music.Songs.Song song, RemarkKind kind) => Assert.Single(SungRhythmRemarks.Of(song), r => r.Kind == kind);
}
