using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Diagrams;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Tests.Engraving;

/// <summary>Under a capo both names of a chord are shown. A capo raises each name by its fret in semitones: A at fret 1 is B flat, D is E flat.</summary>
public class CapoNamesTests
{
    private const string Head = "title Lantern Hill\ntuning E2 A2 D3 G3 B3 E4\ncapo 1\nmeter 4/4\ntempo 90\n";
    private static readonly Song Sounding = Song(Head + "key Bb major\nshape Bb x02220\nshape Eb xx0232\nsection Verse\nchords | Bb . Eb . | Eb . N.C. . |\n");
    private static readonly Song Hand = Song(Head
        + "names hand\nkey A major\nshape A x02220\nshape D xx0232\nsection Verse\nchords | A . D . | D . N.C. . |\n");

    [Fact]
    public void ASheetShowsBothNames()
    {
        var texts = Texts(Sounding);
        Assert.Superset(new HashSet<string> { "play A", "play D", "B♭ major, played as A major", "play", "capo 1" }, texts.ToHashSet());
        Assert.Contains("Large names are what sounds; small ones below are the hand's", string.Join(' ', texts));
    }

    [Fact]
    public void WhereTheSongsNamesAreTheHandsTheyAreLarge()
    {
        var texts = Texts(Hand);
        Assert.Superset(new HashSet<string> { "sounds B♭", "sounds E♭", "A major, sounds B♭ major", "sounds" }, texts.ToHashSet());
        Assert.Contains("Large names are the hand's", string.Join(' ', texts));
    }

    /// <summary>The notes below a diagram are called as the name above it: x02220 at fret 1 sounds Bb F Bb D F, which the hand knows as A E A C# E.</summary>
    [Theory]
    [InlineData(false, "– B♭ F B♭ D F")]
    [InlineData(true, "– A E A C♯ E")]
    public void NotesBelowADiagramSpeakTheNamesLanguage(bool hand, string notes)
    {
        var song = hand ? Hand : Sounding;
        var drawing = ChordDiagram.Engrave(ChordDiagramSubject.Of(song, song.Shapes[0].Shape, song.Shapes[0].Name, Standing.Decided),
            new(10, Foot: StringFoot.SoundingNotes));
        Assert.EndsWith(notes + " capo 1", string.Join(' ', Layout.Texts(drawing)));
    }

    [Fact]
    public void WithoutACapoOrUnderAPartialOneThereIsOneName()
    {
        var partial = Song("title T\ntuning E2 A2 D3 G3 B3 E4\ncapo 2 on A2 D3 G3\nkey E major\nshape Esus4 000000\nsection A\nchords | Esus4 |\n");
        Assert.DoesNotContain(Texts(partial), t => t.StartsWith("play", StringComparison.Ordinal) || t.Contains("played as", StringComparison.Ordinal));
    }

    // A minor's open shape at capo 2 sounds B minor; the song calls it Am, and no hand's name of either is right beside it.
    [Fact]
    public void AShapeThatContradictsItsNameHasNoSecondNameAndIsToldOf()
    {
        var texts = Texts(Song("title T\ntuning E2 A2 D3 G3 B3 E4\ncapo 2\nkey A minor\nshape Am x02210\nshape Em 022000\nsection A\nchords | Am | D |\n"));
        Assert.DoesNotContain(texts, t => t.Contains("Gm", StringComparison.Ordinal));
        Assert.Contains(texts, t => t.StartsWith("x02210 with capo 2 sounds Bm, not Am", StringComparison.Ordinal));
    }

    [Fact]
    public void ShapesThatNobodyTriedAreToldOfBesideTheirDiagrams()
    {
        Assert.True(CapoChange.TrySameSound(Sounding, Music.Instruments.Strings.Capo.None, out var moved, out _));
        var texts = Texts(moved).ToList();
        Assert.InRange(texts.FindIndex(t => t.Contains("no person has tried them", StringComparison.Ordinal)), 0, texts.IndexOf("Verse"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void NothingIsCutOrCovered(bool hand) => Assert.All(BarSheet.Engrave(hand ? Hand : Sounding, PaperSize.A4), Layout.IsSound);

    // The hand does the same in all three songs, so they share a diagram under the hand's name.
    [Fact]
    public void ASongbookNamesShapesForTheHandAndSaysWhatTheySound()
    {
        var plain = Song(Head.Replace("capo 1", "capo none") + "key A major\nshape A x02220\nsection Verse\nchords | A |\n");
        var texts = SongbookIndex.Engrave(Songbook.Of(Sounding, Hand, plain), PaperSize.A4).SelectMany(Layout.Texts).ToArray();
        Assert.Superset(new HashSet<string> { "3", "1, 2 capo 1: B♭", "1, 2 capo 1: E♭", "played as A major" }, texts.ToHashSet());
        Assert.Single(texts, t => t == "1, 2 capo 1: B♭");
    }

    [Fact]
    public void ThePageShowsBothNames()
    {
        Assert.Contains("B♭<em>A</em>", Page(Sounding));
        Assert.Contains("A<em>B♭</em>", Page(Hand));
        Assert.Contains("E♭<em>D</em></b> <b style=\"flex:2 1 0\">N.C.</b>", Page(Sounding));
    }

    [Fact]
    public void BeforeTheMusicThePlayerIsToldWhatToPlay()
    {
        Assert.Contains("play A, it sounds B♭", TuningCard.Lines(Sounding));
        Assert.Contains("play A, it sounds B♭", TuningCard.Lines(Hand));
    }

    // A song that was taken from no record has no record's pitch.
    [Fact]
    public void ASongWithoutARecordHasThePitchThatItsFileSaysOrNone()
    {
        Assert.DoesNotContain(SongFacts.Of(Sounding), f => f.Label.StartsWith("pitch", StringComparison.Ordinal));
        Assert.DoesNotContain(TuningCard.Lines(Sounding), l => l.Contains("Hz", StringComparison.Ordinal));
        Assert.Equal("pitch", SongFacts.Of(Song(Head + "pitch A4 = 442 Hz\n"))[0].Label);
        Assert.Equal("pitch of the record", SongFacts.Of(Song(Head + "recording a.wav\n"))[0].Label);
    }

    private static string Page(Song song) => PlayAlongPage.Write(new(song), [], "audio/wav", 6);

    private static string[] Texts(Song song) => [.. BarSheet.Engrave(song, PaperSize.A4).SelectMany(Layout.Texts)];

    private static Song Song(string text) => SongText.Parse(text, "lantern.hark").Song!;
}
