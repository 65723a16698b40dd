using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Songs;

/// <summary>A section changes its key as it changes its meter.</summary>
public class KeyChangeTests
{
    private const string Facts = "title T\nkey D major\n";

    [Fact]
    public void ALineHoldsFromTheBarAfterTheLastOneWritten() =>
        AssertKeys("section A\nchords | D | A |\nkey B minor\nchords | Bm | F# |\nkey D major\nchords | D |", "D major", "D major", "B minor",
            "B minor", "D major");

    [Fact]
    public void ALineMayNameItsFirstBar() =>
        AssertKeys("section A\nkey D major from 4\nkey E from 2   ~heard 71%\nchords | D | A | B | E |", "D major", "E major", "E major", "D major");

    [Fact]
    public void EachSectionStartsInTheSongsKey() =>
        AssertKeys("section A\nkey E minor\nchords | Em |\nsection B\nchords | D |", "E minor", "D major");

    [Fact]
    public void ASectionLikeAnotherTakesItsKeysOverUpToItsOwn() => AssertKeys(
        "section A\nkey E minor from 2\nchords | Em | D | D |\nsection B like A\nsection C like A\nkey G major from 3",
        "D major", "E minor", "E minor", "D major", "E minor", "E minor", "D major", "E minor", "G major");

    [Fact]
    public void AChangeHasAStanding()
    {
        var section = Song("section A\nkey E minor from 2  ~heard 71%\nchords | D | Em |").Sections[0];
        Assert.Equal([new KeyChange(2, Key.Parse("E minor")) { Standing = Standing.Heard(0.71) }], section.Keys);
    }

    [Fact]
    public void AnEditChangesOnlyTheKeysWords()
    {
        const string text = Facts + "section A ; high\nkey   E minor  from 2  ~heard 71% ; hm\nchords | D | Em |\n";
        Assert.Equal(text.Replace("E minor", "G major"), SongText.Parse(text, "t").WithKeyChange(0, 2, Key.Parse("G major")).Text);
        Assert.Equal(text.Replace("E minor", "G major").Replace("  ~heard 71%", ""), SongText.Parse(text, "t")
            .WithKeyChange(0, 2, Key.Parse("G major"), Standing.Decided).Text);
    }

    [Fact]
    public void AnEditAddsALineUnderTheHeadOfTheSection()
    {
        const string text = Facts + "section A ; high\nanchors 1 = 0:01\nkey E minor from 2\nchords | D | Em | G |\n";
        var edited = SongText.Parse(text, "t").WithKeyChange(0, 3, Key.Parse("G major"), Standing.Heard(0.5));
        Assert.Equal(text.Replace("0:01\n", "0:01\nkey        G major from 3  ~heard 50%\n"), edited.Text);
        Assert.Equal(["D major", "E minor", "G major"], Keys(edited.Song!));
    }

    [Fact]
    public void AnEditTakesALineAway()
    {
        const string text = Facts + "section A\nkey E minor from 2\nchords | D | Em |\n";
        Assert.Equal(text.Replace("key E minor from 2\n", ""), SongText.Parse(text, "t").WithoutKeyChange(0, 2).Text);
        Assert.Throws<ArgumentException>(() => SongText.Parse(text, "t").WithoutKeyChange(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SongText.Parse(text, "t").WithKeyChange(0, 3, Key.Parse("G major")));
    }

    [Fact]
    public void TheSongKnowsEachBarsKey() =>
        Assert.Contains("bars 1 to 1", Assert.Throws<ArgumentOutOfRangeException>(() => Song("section A\nchords | D |").KeyAt(2)).Message);

    private static void AssertKeys(string text, params string[] keys) => Assert.Equal(keys, Keys(Song(text)));

    private static IEnumerable<string> Keys(Song song) => song.Bars.Select(b => song.KeyAt(b.Number).ToString());

    private static Song Song(string text)
    {
        var document = SongText.Parse(Facts + text, "t.hark");
        Assert.DoesNotContain(document.Diagnostics, d => d.Severity >= Severity.Warning);
        return document.Song!;
    }
}
