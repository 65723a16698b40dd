using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Rhythm;

public class TappedTimesTests
{
    [Fact]
    public void SyllablesBeatsAndBarLinesAreRead()
    {
        var read = TappedTimes.Read(["; by hand", "0:12.402 fer-", "", "0:12.9 |5", "1:02 |5.3", "63.5"], out _)!;
        Assert.Equal([(12.402, "fer-"), (63.5, "x")], read.Syllables.Select(t => (t.At.Value, t.Syllable)));
        Assert.Equal([(12.9, 5, 0), (62, 5, 2)], read.Beats.Select(t => (t.At.Value, t.Bar, t.Beat)));
    }

    [Theory]
    [InlineData("0:12 |")]
    [InlineData("0:12 |five")]
    [InlineData("0:12 |5.0")]
    [InlineData("|5")]
    [InlineData("soon")]
    public void AnyOtherLineIsNamed(string line)
    {
        Assert.Null(TappedTimes.Read(["0:01 oh", line], out var wrong));
        Assert.Equal(2, wrong);
    }

    [Fact]
    public void ADelayOfAllIsTakenOff()
    {
        var read = TappedTimes.Read(["0:10 oh", "0:00.1 |1"], out _)!.Without(Seconds.FromMilliseconds(150));
        Assert.Equal(9.85, read.Syllables[0].At.Value, 9);
        Assert.Equal(0, read.Beats[0].At.Value);
    }
}
