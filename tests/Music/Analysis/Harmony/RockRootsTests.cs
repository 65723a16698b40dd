using Harkbook.Music.Analysis;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;

namespace Harkbook.Music.Tests.Analysis.Harmony;

// The figures are quoted from memory (data/rock-roots.tsv says so); the abstract of the paper says that IV is the commonest root after I.
public class RockRootsTests
{
    [Fact]
    public void SharesAddUpToOne() => Assert.Equal(1, Enumerable.Range(0, 12).Sum(RockRoots.ShareAt), 0.005);

    [Fact]
    public void FourIsTheCommonestAfterOne() =>
        Assert.Equal([0, 5], Enumerable.Range(0, 12).OrderByDescending(RockRoots.ShareAt).Take(2));

    [Fact]
    public void ARootBeyondTheOctaveIsNone() => Assert.Throws<ArgumentOutOfRangeException>(() => RockRoots.ShareAt(12));

    [Theory]
    [InlineData("bVII", Frequency.Usual)]
    [InlineData("bVI", Frequency.Uncommon)]
    [InlineData("bII", Frequency.Rare)]
    [InlineData("V7/V", Frequency.Uncommon)]
    public void ThreeWordsForHowOften(string numeral, Frequency frequency) => Assert.Equal(frequency, RockRoots.Of(RomanNumeral.Parse(numeral)).Frequency);
}
