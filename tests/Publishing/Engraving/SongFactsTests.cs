using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;

namespace Harkbook.Publishing.Tests.Engraving;

public class SongFactsTests
{
    [Theory]
    [InlineData("section A\nchords | G |\n", "G major")]
    [InlineData("section A\nchords | G |\n\nsection bridge\nkey E minor\nkey D major from 2\nchords | Em | D |\n",
        "G major; E minor in bridge; D major from bar 2 of bridge")]
    [InlineData("section A\nkey F# minor\nchords | F#m |\n\nsection A\nkey F# minor\nchords | F#m |\n", "G major; F♯ minor in A")]
    public void TheKeyIsSaidWithItsChanges(string sections, string expected)
    {
        var song = SongText.Parse("title Ferry\nkey G major\nshape G 320003\nshape Em 022000\nshape D xx0232\nshape F#m 244222\n" + sections, "a.hark").Song!;
        Assert.Equal(expected, SongFacts.Of(song).Single(f => f.Label == "key").Value);
    }
}
