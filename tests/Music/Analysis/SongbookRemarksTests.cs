using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis;

/// <summary>What is said of planted likenesses and differences, and nothing else.</summary>
public class SongbookRemarksTests
{
    private const string OpenD = "tuning D2 A2 D3 F#3 A3 D4\n";

    [Fact]
    public void ASharedShapeIsNamedWithWhatTheOtherCallsIt()
    {
        var remark = Assert.Single(Of(
            OpenD + "shape D 000000\nsection A\nchords | D | D |\n",
            OpenD + "capo 2\nshape E 000000\nsection A\nchords | E |\n"));
        Assert.Equal((RemarkKind.SharedShapes, "D (there called E) is a shape of Two too."), (remark.Kind, remark.Sentence));
        Assert.Equal([1, 2], remark.Places.Select(p => p.Bar));
    }

    [Fact]
    public void ASharedStrumIsNamed() =>
        Assert.Equal("Two of its bars are strummed as in Two.", Assert.Single(Of(
            "section A\nstrum | d . d u . u d u | d . d u . u d u |\n", "section A\nstrum | d . d u . u d u |\n")).Sentence);

    // F minor in C and C minor in G are both the four chord turned minor (textbooks, see SongbookTests).
    [Fact]
    public void ASharedBorrowedChordIsNamed() =>
        Assert.Equal("It borrows F minor as Two borrows C minor.", Assert.Single(Of(
            "key C major\nsection A\nchords | C | Fm | C |\n", "key G major\nsection A\nchords | G | Cm | G |\n")).Sentence);

    [Fact]
    public void ADifferenceIsToldToBothSongs()
    {
        var remark = Assert.Single(Of("section Chorus\nchords | C |\n", "section Refrain\nchords | F |\n"));
        Assert.Equal((RemarkKind.WrittenTwoWays, RemarkTopic.Songbook), (remark.Kind, remark.Topic));
    }

    [Fact]
    public void SongsWithNothingInCommonGetNoRemark()
    {
        Assert.Empty(Of("section A\nchords | C |\nstrum | d . . . |\n", "section B\nchords | F |\nstrum | d . . . |\n"));
        var alone = SongText.Parse("title One\nshape C x32010\n", "a.hark").Song!;
        Assert.Empty(SongbookRemarks.Of(alone, []));
        Assert.Empty(SongbookRemarks.Of(alone, [alone]));
    }

    private static Remark[] Of(string one, string two)
    {
        var songs = new[] { ("One", one), ("Two", two) }.Select(s => SongText.Parse($"title {s.Item1}\n{s.Item2}", "a.hark").Song!).ToArray();
        return [.. SongbookRemarks.Of(songs[0], songs)];
    }
}
