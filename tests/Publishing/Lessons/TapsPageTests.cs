using System.Text.RegularExpressions;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Lessons;

namespace Harkbook.Publishing.Tests.Lessons;

public sealed partial class TapsPageTests
{
    private static readonly string Page = TapsPage.Write(new(LessonSongs.FourBars), [1, 2, 3], "audio/mp4", 4.5, "four & bars", "taps.txt");

    [Fact]
    public void NothingInThePageComesFromElsewhere()
    {
        Assert.Contains("default-src 'none'", Page);
        Assert.Equal(["href=\"data:,\""], Addresses().Matches(Page).Select(m => m.Value));
    }

    [Fact]
    public void NamesThatLookLikeMarkupStayText()
    {
        Assert.Contains("harkbook taps &quot;four &amp; bars&quot; taps.txt", Page);
        Assert.DoesNotContain("<home>", Page);
        Assert.DoesNotContain("[[", Page);
    }

    [Fact]
    public void TheSongsWordsAreThere() => Assert.Contains(">Down to the quay</textarea>", Page);

    /// <summary>WCAG 2.2, 1.4.3: text has a contrast of 4.5 to 1 with its ground; 1.4.11: what must be seen 3 to 1.</summary>
    [Theory]
    [InlineData("ink", "paper", 4.5)]
    [InlineData("ink", "faint", 4.5)]
    [InlineData("quiet", "paper", 4.5)]
    [InlineData("quiet", "faint", 4.5)]
    [InlineData("voice", "paper", 4.5)]
    [InlineData("hand", "paper", 4.5)]
    [InlineData("oncolour", "hand", 4.5)]
    [InlineData("onnow", "now", 4.5)]
    [InlineData("line", "paper", 3)]
    public void ColoursContrast(string sign, string ground, double least)
    {
        var schemes = Root().Matches(Page)
            .Select(root => Variable().Matches(root.Value).ToDictionary(m => m.Groups[1].Value, m => Colour.FromHex(m.Groups[2].Value))).ToList();
        Assert.Equal(2, schemes.Count);
        Assert.All(schemes, scheme => Assert.True(scheme[sign].Contrast(scheme[ground]) >= least,
            $"{sign} on {ground}: {scheme[sign].Contrast(scheme[ground]):0.00}"));
    }

    [GeneratedRegex("""(?:src|href|action|poster|data)\s*=\s*["']([^"']*)["']|url\(([^)]*)\)|@import""")]
    private static partial Regex Addresses();

    [GeneratedRegex(@":root \{[^}]*\}")]
    private static partial Regex Root();

    [GeneratedRegex("--([a-z]+): #([0-9a-f]{6})")]
    private static partial Regex Variable();
}
