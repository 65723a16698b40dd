using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>Small made-up songbooks; what they share and contradict is planted and worked by hand.</summary>
public class SongbookTests
{
    private const string OpenD = "tuning D2 A2 D3 F#3 A3 D4\n";
    private const string OpenE = "tuning E2 B2 E3 G#3 B3 E4\n";

    [Fact]
    public void AShapeIsFoundInEverySong()
    {
        var book = Songbook.Of(
            Song("One", OpenD + "shape D 000000\nshape G/D 020120\nsection A\nchords | D | G/D | D |\n"),
            Song("Two", OpenD + "capo 2\nshape E 000000\nsection A\nchords | E | E |\n"),
            Song("Three", "shape G 320003\nsection A\nchords | G |\n"));
        var grip = book.Grips[0];
        Assert.Equal(("000000", 2, 4), (grip.Shape.ToString(), grip.Songs, grip.Bars));
        Assert.Equal(["D", "E"], grip.Names.Order());
        Assert.Equal(["One 1 3", "Two 1 2"], book.WithShape(Shape.Parse("000000")).Select(u => $"{u.Song.Title} {string.Join(' ', u.Bars)}"));
        Assert.Equal(["Three"], book.WithChord(ChordSymbol.Read("G")).Select(u => u.Song.Title));
        Assert.Empty(book.WithShape(Shape.Parse("x02210")));
    }

    // A capo raises a name by its fret in semitones: Am at fret 2 sounds Bm.
    [Theory]
    [InlineData("Am")]
    [InlineData("Bm")]
    public void AChordUnderACapoIsFoundByEitherName(string name)
    {
        var book = Songbook.Of(Song("One", "capo 2\nnames hand\nkey A minor\nshape Am x02210\n"), Song("Two", "capo 2\nkey B minor\nshape Bm x02210\n"));
        Assert.Equal(["One", "Two"], book.WithChord(ChordSymbol.Read(name)).Select(u => u.Song.Title));
        Assert.Equal(["Am", "Bm"], book.Grips[0].Names.Order());
    }

    // Open D under a capo at 2 sounds as open E does (an identity of the trade).
    [Fact]
    public void OtherHandsThatSoundTheSameAreFound()
    {
        var book = Songbook.Of(Song("One", OpenD + "capo 2\nshape E 000000\n"), Song("Two", OpenE + "shape E 000000\n"),
            Song("Three", OpenD + "shape D 000000\n"));
        var use = book.WithShape(Shape.Parse("000000")).First(u => u.Song.Title == "One");
        Assert.Equal(["Two"], book.SoundingAs(use).Select(u => u.Song.Title));
    }

    [Fact]
    public void AStrumIsSharedWhateverTheSong()
    {
        var book = Songbook.Of(
            Song("One", "section A\nstrum | d . d u . u d u | d . . . |\n"),
            Song("Two", "section A\nstrum | d . d u . u d u | d,. d,u .,u d,u |\n"));
        Assert.Equal(("d . d u . u d u", 2, 3), (book.Strums[0].ToString(), book.Strums[0].Uses.Length, book.Strums[0].Bars));
        Assert.Equal("d . . .", book.Strums[1].ToString());
    }

    // In C, F minor is the four chord turned minor, borrowed from C minor (textbooks: "Integrated Music Theory", "Open Music Theory").
    [Fact]
    public void BorrowedChordsAreGatheredByNumeral()
    {
        var book = Songbook.Of(
            Song("One", "key C major\nsection A\nchords | C | Fm | C |\n"),
            Song("Two", "key G major\nsection A\nchords | G | Cm | G | D |\n"),
            Song("Three", "key C major\nsection A\nchords | C | F | G |\n"));
        var borrowed = Assert.Single(book.Borrowed);
        Assert.Equal(("iv", "One Fm, Two Cm"), (borrowed.Numeral, string.Join(", ", borrowed.Uses.Select(u => $"{u.Song.Title} {u.Symbol}"))));
    }

    public static TheoryData<SongbookFindingKind, string, string, string> Planted => new()
    {
        { SongbookFindingKind.ShapeNamedTwice, "shape Am7 x02010\n", "shape C6/A x02010\n", "Am7 in One and C6/A in Two" },
        { SongbookFindingKind.ShapeNamedTwice, "shape G 320003\n", "capo 2\nshape G 320003\n", "G in One and G in Two" },
        { SongbookFindingKind.ChordSpeltTwice, "section A\nchords | Cmaj7 |\n", "section A\nchords | CM7 |\n", "Cmaj7 in One and CM7 in Two" },
        { SongbookFindingKind.TuningWrittenTwice, OpenD + "capo 2\n", OpenE, "open D with a capo at fret 2 in One and open E in Two" },
        { SongbookFindingKind.TuningWrittenTwice, OpenD, "tuning D2 A2 D3 Gb3 A3 D4\n", "D2 A2 D3 F#3 A3 D4 in One and D2 A2 D3 Gb3 A3 D4 in Two" },
        { SongbookFindingKind.SectionNamedTwice, "section Chorus 1\nchords | C |\n", "section Refrain\nchords | D |\n", "Chorus in One and Refrain in Two" },
        { SongbookFindingKind.PitchDiffers, "album Tide\npitch A4 = 440 Hz\n", "album Tide\npitch A4 = 443 Hz\n", "differs by 12 cents" },
    };

    [Theory]
    [MemberData(nameof(Planted))]
    public void WhatIsWrittenInTwoWaysIsFound(SongbookFindingKind kind, string one, string two, string words)
    {
        var finding = Assert.Single(Songbook.Of(Song("One", one), Song("Two", two)).Findings);
        Assert.Equal(kind, finding.Kind);
        Assert.Contains(words, finding.Sentence);
        Assert.Equal(["One", "Two"], finding.Songs.Select(s => s.Title));
    }

    public static TheoryData<string, string> Consistent => new()
    {
        { "shape G 320003\n", "capo 2\nshape A 320003\n" },
        { "shape D@low 000232\nsection A\nchords | D@low |\n", "section A\nchords | D |\n" },
        { "section Verse 1\nchords | C |\n", "section Verse 2\nchords | C |\n" },
        { "album Tide\npitch A4 = 440 Hz\n", "album Ebb\npitch A4 = 443 Hz\n" },
        { "album Tide\npitch A4 = 440 Hz\n", "album Tide\npitch A4 = 440.9 Hz\n" },
        { OpenD, OpenE },
    };

    [Theory]
    [MemberData(nameof(Consistent))]
    public void NothingIsInvented(string one, string two) => Assert.Empty(Songbook.Of(Song("One", one), Song("Two", two)).Findings);

    [Fact]
    public void SectionsOfOneSongWithTheSameBarsShouldShareAName()
    {
        var song = Song("One", "section Verse 1\nchords | C | F |\nsection Tale\nchords | C | F |\nsection Verse 2\nchords | C | F |\n");
        var finding = Assert.Single(Songbook.Of(song).Findings);
        Assert.Contains("Verse 1, Tale and Verse 2", finding.Sentence);
    }

    private static Song Song(string title, string text) => SongText.Parse($"title {title}\n{text}", "a.hark").Song!;
}
