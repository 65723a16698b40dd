using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Songs;

/// <summary>Expected by the meaning of the words: what a player would point at on hearing the name.</summary>
public class SectionNamesTests
{
    [Theory]
    [InlineData("verse", "Intro|Verse 1|Chorus", "Verse 1")]
    [InlineData("verse", "Verse 1|Verse 2|Chorus", "Verse 1|Verse 2")]
    [InlineData("VERSE  2", "Verse 1|Verse 2|Verse 20", "Verse 2")]
    [InlineData("v2", "Verse 1|Verse 2|Verse 20", "Verse 2")]
    [InlineData("Verse", "Verse|Verse 2|Verse", "Verse")]
    [InlineData("chorus", "Pre-Chorus|Chorus 1", "Chorus 1")]
    [InlineData("chorus", "Pre-Chorus|Last Chorus", "Pre-Chorus|Last Chorus")]
    [InlineData("last ch", "Chorus|Last Chorus", "Last Chorus")]
    [InlineData("a", "A 1|And Out|A 2", "A 1|A 2")]
    [InlineData("choris", "Verse|Chorus 1|Chorus 2", "Chorus 1|Chorus 2")]
    [InlineData("vesre 1", "Verse 1|Chorus", "Verse 1")]
    [InlineData("bridge", "Verse 1|Chorus", "")]
    [InlineData("1", "Verse 1|Verse 10", "Verse 1")]
    [InlineData(" ", "Verse 1", "")]
    [InlineData("&", "&|Verse 1", "&")]
    public void TheNamesThatMayBeMeant(string given, string names, string meant) =>
        Assert.Equal(meant, string.Join('|', SectionNames.Meant(given, names.Split('|'))));
}
