using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;

namespace Harkbook.Publishing.Tests.Engraving;

public class SongbookIndexTests
{
    private static readonly Song[] Songs =
    [
        Song("The Ferry at Hollin Reach", "player Wren Adair\nalbum Tidewater\ntuning D2 A2 D3 F#3 A3 D4\ncapo 2\nkey E major\nharp low A\nshape E "
            + "000000\nshape A/E 020120\nsection A\nchords | E | A/E | E |\nstrum | d . d u . u d u | d . d u . u d u | d . . . |\n"),
        Song("Salt for the Journey Home by the Long Way Round and Back Again before the Tide", "player Marit Oskerby\nkey Bb mixolydian\nharp Eb "
            + "natural-minor\nmeter 6/8\nshape Bb x13331\nshape Ebm xx1342\nsection A\nchords | Bb | Ebm |\nstrum | d . u d d u | d . u d d u |\n"),
        Song("Quay", "tuning G4 C4 E4 A4\nkey C major\nshape C 0003\nshape C/G@high 5433\nsection A\nchords | C | C/G@high |\n"),
    ];

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(60)]
    public void NothingIsCutOrCovered(int count)
    {
        var book = Songbook.Of(Enumerable.Range(0, count).Select(i => Songs[i % 3] with { Title = i < 3 ? Songs[i].Title : $"{Songs[i % 3].Title} {i}" }));
        Assert.All(SongbookIndex.Engrave(book, PaperSize.A4), Layout.IsSound);
        Assert.All(SongbookIndex.Engrave(book, PaperSize.Letter), Layout.IsSound);
    }

    // A harmonica in A for a song in E is in second position (common practice: cross harp).
    [Fact]
    public void TheIndexSaysWhatAPlayerSetsUpBy()
    {
        var texts = SongbookIndex.Engrave(Songbook.Of(Songs), PaperSize.A4).SelectMany(Layout.Texts).ToArray();
        Assert.Superset(
            new HashSet<string>
            {
                "The Ferry at Hollin Reach", "Wren Adair  ·  Tidewater", "E major", "open D", "2", "low A", "2nd position", "B♭ mixolydian", "Shapes in open D",
                    "Shapes in ukulele standard", "in 6/8",
            },
            texts.ToHashSet());
    }

    [Fact]
    public void ABookWithoutSongsIsAMistake() => Assert.Throws<ArgumentException>(() => SongbookIndex.Engrave(Songbook.Of(), PaperSize.A4));

    private static Song Song(string title, string text) => SongText.Parse($"title {title}\n{text}", "a.hark").Song!;
}
