using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Theory;

public class KeyProfileTests
{
    // Sums of the published rows (Krumhansl and Kessler 1982; Temperley 1999; Albrecht and Shanahan 2013), added by hand.
    [Theory]
    [InlineData(0, 41.79, 44.51)]
    [InlineData(1, 38.5, 38.5)]
    [InlineData(3, 1.0, .998)]
    public void TablesAddUp(int profile, double major, double minor)
    {
        Assert.Equal(major, KeyProfiles.All[profile].Major.Sum(), 6);
        Assert.Equal(minor, KeyProfiles.All[profile].Minor.Sum(), 6);
    }

    // C. Krumhansl, Cognitive Foundations of Musical Pitch (1990), table of correlations between key profiles, C major row:
    // recomputed from the profiles outside this program; the book's printed values agree within .002 (from memory).
    [Theory]
    [InlineData("G major", .591)]
    [InlineData("F major", .591)]
    [InlineData("D major", .041)]
    [InlineData("F# major", -.683)]
    [InlineData("A minor", .650)]
    [InlineData("E minor", .536)]
    [InlineData("C minor", .512)]
    [InlineData("Eb minor", -.653)]
    public void KeysAreRelatedAsPublished(string key, double correlation)
    {
        var profile = KeyProfiles.KrumhanslKessler;
        var fit = profile.Rank(profile.Major.AsSpan()).Single(f => f.Key == Key.Parse(key));
        Assert.Equal(correlation, fit.Correlation, .0015);
    }

    // Pearson correlations computed outside this program from the published profiles.
    [Theory]
    [InlineData("1 0 1 0 1 1 0 1 0 1 0 1", "C major .7564, A minor .7121, G major .6775")]
    [InlineData("2 0 1 0 1 1 0 1 0 1 0 1", "C major .9014, A minor .7563, F major .6125")]
    [InlineData("1 0 1 0 1 1 0 0 1 1 0 1", "A minor .6872, F major .3924, C major .3817")]
    [InlineData("1 0 0 0 1 0 0 1 0 0 0 0", "C major .8338, E minor .7602, G major .5565")]
    [InlineData("1 0 0 1 0 0 0 1 0 0 0 0", "C minor .8886, Eb major .6007")]
    [InlineData("3 0 1 0 2 1 0 3 0 1 0 1", "C major .9589, G major .7446, E minor .7034")]
    [InlineData("1 0 3 0 1 0 2 2 0 2 0 1", "D major .9243, G major .7475")]
    [InlineData("3 0 1 1 2 1 0 2 1 0 1 0", "C major .7935, C minor .7058")]
    [InlineData("0 1 1 1 2 0 1 1 1 2 0 2", "E major .7921, A major .7529")]
    public void KrumhanslKesslerRanksCounts(string counts, string best) => AssertRanks(KeyProfiles.KrumhanslKessler, counts, best);

    [Theory]
    [InlineData("1 0 1 0 1 1 0 1 0 1 0 1", "C major .9365")]
    [InlineData("1 0 3 0 1 0 2 2 0 2 0 1", "G major .8469, D major .7764")]
    [InlineData("3 0 1 0 2 1 0 2 0 2 0 1", "C major .9175")]
    public void TemperleyRanksCounts(string counts, string best) => AssertRanks(KeyProfiles.Temperley, counts, best);

    [Theory]
    [InlineData("2 0 1 0 3 1 0 0 1 3 0 1", "A minor .9580")]
    [InlineData("0 1 1 1 2 0 1 1 1 2 0 2", "A major .8220, E major .7810")]
    public void AlbrechtShanahanRanksCounts(string counts, string best) => AssertRanks(KeyProfiles.AlbrechtShanahan, counts, best);

    // The circle of fifths.
    [Theory]
    [InlineData("C major", "G major", 1)]
    [InlineData("C major", "D major", 2)]
    [InlineData("C major", "E major", 4)]
    [InlineData("C major", "F# major", 6)]
    [InlineData("C major", "Bb major", 2)]
    [InlineData("C major", "Ab major", 4)]
    [InlineData("C major", "A minor", 0)]
    [InlineData("F# major", "Gb major", 0)]
    public void KeysAreFifthsApart(string a, string b, int steps) =>
        Assert.Equal(steps, KeyProfiles.FifthsApart(Key.Parse(a), Key.Parse(b)));

    [Fact]
    public void CountsMustBeTwelve() => Assert.Throws<ArgumentException>(() => KeyProfiles.Temperley.Rank([1, 2, 3]));

    private static void AssertRanks(KeyProfile profile, string counts, string best)
    {
        var ranked = profile.Rank(counts.Split(' ').Select(double.Parse).ToArray());
        foreach (var (expected, fit) in best.Split(", ").Zip(ranked))
        {
            Assert.Equal(expected[..expected.LastIndexOf(' ')], fit.Key.ToString());
            Assert.Equal(double.Parse(expected[(expected.LastIndexOf(' ') + 1)..]), fit.Correlation, .0001);
        }
    }
}
