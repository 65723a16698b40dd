using System.Text.RegularExpressions;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Lessons;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed partial class PlayAlongPageTests
{
    private static readonly string Page = PlayAlongPage.Write(new(LessonSongs.FourBars), [1, 2, 3], "audio/mp4", 4.5);

    [Fact]
    public void NothingInThePageComesFromElsewhere()
    {
        Assert.Contains("default-src 'none'", Page);
        var addresses = Regex.Matches(Page, """(?:src|href|action|poster|data)\s*=\s*["']([^"']*)["']|url\(([^)]*)\)|@import""").Select(m => m.Value)
            .Where(a => !a.StartsWith("href=\"#", StringComparison.Ordinal));
        Assert.Equal(["href=\"data:,\""], addresses);
    }

    [Fact]
    public void NamesThatLookLikeMarkupStayText()
    {
        Assert.Contains("<h2>Out &amp; &lt;home&gt;</h2>", Page);
        Assert.DoesNotContain("<home>", Page);
    }

    [Fact]
    public void NothingOfTheFrameOfThePageIsLeftUnfilled() => Assert.DoesNotContain("[[", Page);

    /// <summary>WCAG 2.2, 1.4.3: text has a contrast of 4.5 to 1 with its ground; 1.4.11: what must be seen 3 to 1.</summary>
    [Theory]
    [InlineData("ink", "paper", 4.5)]
    [InlineData("ink", "faint", 4.5)]
    [InlineData("quiet", "paper", 4.5)]
    [InlineData("quiet", "faint", 4.5)]
    [InlineData("hand", "paper", 4.5)]
    [InlineData("hand", "faint", 4.5)]
    [InlineData("voice", "paper", 4.5)]
    [InlineData("blow", "paper", 4.5)]
    [InlineData("draw", "paper", 4.5)]
    [InlineData("oncolour", "hand", 4.5)]
    [InlineData("onnow", "now", 4.5)]
    [InlineData("line", "paper", 3)]
    [InlineData("moving", "paper", 3)]
    public void ColoursContrast(string sign, string ground, double least)
    {
        foreach (var scheme in Schemes())
            Assert.True(scheme[sign].Contrast(scheme[ground]) >= least, $"{sign} on {ground}: {scheme[sign].Contrast(scheme[ground]):0.00}");
    }

    /// <summary>A 2/4 bar inside 4/4 is marked, and the return too; bars that go on in their meter are not.</summary>
    [Fact]
    public void AChangedMeterIsMarkedInTheListOfBars()
    {
        var page = PlayAlongPage.Write(new(LessonSongs.TwoFour), [1, 2, 3], "audio/mp4", 4.5);
        Assert.Contains("aria-label=\"bar 2 in 2/4, G\"><small>2 <em>2/4</em></small>", page);
        Assert.Contains("aria-label=\"bar 3 in 4/4, C\"><small>3 <em>4/4</em></small>", page);
        Assert.Equal(2, Regex.Count(page, "<em>"));
    }

    /// <summary>The row's sign is yellow between dark edges: one of the two stands out on either ground.</summary>
    [Fact]
    public void TheMarkerStandsOut()
    {
        foreach (var scheme in Schemes())
            Assert.True(Math.Max(scheme["now"].Contrast(scheme["paper"]), scheme["onnow"].Contrast(scheme["paper"])) >= 3);
    }

    [Theory]
    [InlineData("Bbm7b5/Eb", "B♭m7♭5/E♭")]
    [InlineData("F#7#9", "F♯7♯9")]
    [InlineData("Ebmaj7", "E♭maj7")]
    [InlineData("Abb", "A♭♭")]
    [InlineData("D@high", "D (high)")]
    [InlineData("N.C.", "N.C.")]
    public void ChordNamesHaveRealSharpsAndFlats(string name, string words) =>
        Assert.Equal(words, Harkbook.Publishing.Lessons.Page.ChordWords.Of(name));

    private static Dictionary<string, Colour>[] Schemes() =>
        [.. Root().Matches(Page).Select(root => Variable().Matches(root.Value).ToDictionary(m => m.Groups[1].Value, m => Colour.FromHex(m.Groups[2].Value)))];

    [GeneratedRegex(@":root \{[^}]*\}")]
    private static partial Regex Root();

    [GeneratedRegex("--([a-z]+): #([0-9a-f]{6})")]
    private static partial Regex Variable();
}
