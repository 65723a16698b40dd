using Harkbook.Listening.Checking;
using Harkbook.Listening.Tests.Proposing;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Checking;

/// <summary>Bar lines against beats at every half second from 1 s on, every fourth of which begins a bar: at 1, 3, 5 … by arithmetic.</summary>
public class BarWeigherTests
{
    private static readonly Hearing Heard = HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 40), 1, 2, 3, 4), []);

    private static Finding Third(params double[] starts) => new BarWeigher(Heard).Weigh(
        [.. starts.Select((s, i) => new ClaimedBar(Seconds.FromSeconds(s), 4, new(Seconds.FromSeconds(s), i + 1, 1), "a bar"))]).ElementAt(2);

    [Theory]
    [InlineData(5.0)]
    [InlineData(5.03)]
    public void ALineOnADownbeatIsAheadOfEveryOther(double at) => Assert.True(Third(1, 3, at, 7, 9).LogOdds > 2);

    [Theory]
    [InlineData(5.5)]
    [InlineData(4.5)]
    [InlineData(5.25)]
    public void ALineElsewhereFallsBehindTheRightOne(double at)
    {
        var finding = Third(1, 3, at, 7, 9);
        Assert.True(finding.LogOdds < -2);
        Assert.Equal("0:05.000", finding.Rival!.Reading);
    }

    /// <summary>Half as many bars: each holds two heard ones, and each line on a downbeat is right.</summary>
    [Fact]
    public void BarsAtAnotherLevelAreWeighedThere() => Assert.True(Third(1, 5, 9, 13, 17).LogOdds > 2);

    /// <summary>Bars of three over heard bars of four: where these begin says nothing, but three beats lie between the lines.</summary>
    [Fact]
    public void BarsOfAnotherMeterAreWeighedByTheirBeats()
    {
        Assert.True(Third(1, 2.5, 4, 5.5, 7).LogOdds > 0);
        Assert.True(Third(1, 2.5, 4.5, 5.5, 7).LogOdds < -2);
    }

    /// <summary>Where all other lines lie halfway between heard beats it is likelier the hearing that is off, and one such line tells little.</summary>
    [Fact]
    public void WhereMostLinesLieBesideTheHeardBeatsOneTellsLittle()
    {
        var (alone, amongOthers) = (Third(1, 3, 5.25, 7, 9, 11, 13), Third(1.25, 3.25, 5.25, 7.25, 9.25, 11.25, 13.25));
        Assert.True(alone.LogOdds < -2);
        Assert.InRange(amongOthers.LogOdds!.Value, -1, 1);
    }
}
