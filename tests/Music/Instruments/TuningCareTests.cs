using Harkbook.Music.Instruments.Strings;

namespace Harkbook.Music.Tests.Instruments;

public class TuningCareTests
{
    // Mersenne's law: tension goes with frequency squared, so a semitone is a factor of 2^(1/6); worked outside this project.
    [Theory]
    [InlineData(0, 1)]
    [InlineData(1, 1.12246)]
    [InlineData(2, 1.25992)]
    [InlineData(3, 1.41421)]
    [InlineData(5, 1.7818)]
    [InlineData(-1, 0.8909)]
    [InlineData(-2, 0.7937)]
    [InlineData(-4, 0.62996)]
    public void TensionFollowsTheSquareOfFrequency(int semitones, double ratio) =>
        Assert.Equal(ratio, TuningCare.TensionRatio(semitones), 0.00005);

    // Common practice: open E raises strings 5, 4 and 3; open D raises none.
    [Fact]
    public void RaisedStringsGetACaution()
    {
        var cautions = TuningCare.Cautions(TuningCatalogue.Find("open E")!.Tuning, Tuning.Standard);
        Assert.Equal(["String 5", "String 4", "String 3"], cautions.Select(c => c[..8]));
        Assert.Contains("about 26 % more tension", cautions[0]);
        Assert.Empty(TuningCare.Cautions(TuningCatalogue.Find("open D")!.Tuning, Tuning.Standard));
    }
}
