using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.ReferencePitch;

// Expected values were computed by hand from the definition of a circular mean with a period of 100 cents.
public class CircularCentsTests
{
    [Fact]
    public void DeviationsAboutTheWrapMeetThere()
    {
        var (mean, gathering) = CircularCents.Mean([48, -49, 47, -47], [1, 1, 1, 1]);

        // The plain mean is −0.25, half a semitone off.
        Assert.Equal(49.75, Math.Abs(mean.Value), 0.01);
        Assert.InRange(gathering, 0.98, 1);
    }

    [Fact]
    public void OpenStringsGiveTheirReference()
    {
        double[] heard = [82.8, 110.5, 147.5, 196.9, 248.1, 331.1];
        var deviations = heard.Select(h => CircularCents.Wrapped(1200 * Math.Log2(h / 440))).ToArray();

        var mean = CircularCents.Mean(deviations, [1, 1, 1, 1, 1, 1]).Mean;

        Assert.Equal(7.95, mean.Value, 0.05);
        Assert.Equal(442.03, Hertz.A440.Raised(mean).Value, 0.01);
    }

    [Fact]
    public void OppositeDeviationsGatherNowhere() => Assert.InRange(CircularCents.Mean([25, -25], [1, 1]).Gathering, 0, 1e-9);

    [Theory]
    [InlineData(0, 0)]
    [InlineData(50, -50)]
    [InlineData(-50, -50)]
    [InlineData(149, 49)]
    [InlineData(-351, 49)]
    public void WholeSemitonesFallAway(double cents, double wrapped) => Assert.Equal(wrapped, CircularCents.Wrapped(cents), 1e-9);
}
