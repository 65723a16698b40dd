using CsCheck;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Theory;

public class BarPlaceTests
{
    // Counting: "Integrated Music Theory 2018–19", sections 4a and 4b; "ta" between la and li is common practice.
    [Theory]
    [InlineData("4/4", 1, "1 2 3 4")]
    [InlineData("3/4", 2, "1 & 2 & 3 &")]
    [InlineData("2/4", 4, "1 e & a 2 e & a")]
    [InlineData("6/8", 3, "1 la li 2 la li")]
    [InlineData("2/4", 3, "1 la li 2 la li")]
    [InlineData("6/8", 6, "1 ta la ta li ta 2 ta la ta li ta")]
    public void BarsAreCounted(string meter, int perBeat, string counted) =>
        Assert.Equal(counted, string.Join(' ', BarPlace.Grid(Meter.Parse(meter), perBeat).Select(p => p.Syllable)));

    // Counting every eighth of 6/8 and 12/8 by its number, and simple meters as ever, is common practice.
    [Theory]
    [InlineData("6/8", 3, "1 2 3 4 5 6")]
    [InlineData("12/8", 3, "1 2 3 4 5 6 7 8 9 10 11 12")]
    [InlineData("6/8", 6, "1 & 2 & 3 & 4 & 5 & 6 &")]
    [InlineData("3/4", 2, "1 & 2 & 3 &")]
    public void DivisionsAreCounted(string meter, int perBeat, string counted) =>
        Assert.Equal(counted, string.Join(' ', BarPlace.Grid(Meter.Parse(meter), perBeat).Select(p => p.Said(Counting.Divisions))));

    [Fact]
    public void PlacesAreNamedAsTheyAreCounted()
    {
        var third = BarPlace.Of(Meter.Parse("6/8"), Beats.Fraction(2, 3));
        Assert.Equal(("1 li", "3"), (third.Named(Counting.Beats), third.Named(Counting.Divisions)));
        Assert.Equal("5 &", BarPlace.Of(Meter.Parse("6/8"), Beats.Fraction(3, 2)).Named(Counting.Divisions));
    }

    // Longuet-Higgins and Lee 1984: the weights of a bar of 4/4 in sixteenths.
    [Fact]
    public void WeightsAreThePublishedOnes() =>
        Assert.Equal(
            [0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4],
            BarPlace.Grid(Meter.CommonTime, 4).Select(p => p.Weight));

    [Theory]
    [InlineData(5, 2, "3 &")]
    [InlineData(13, 4, "4 e")]
    [InlineData(9, 2, "1 &")]
    [InlineData(-1, 2, "4 &")]
    public void PlacesAreSaid(int numerator, int denominator, string said) =>
        Assert.Equal(said, BarPlace.Of(Meter.CommonTime, Beats.Fraction(numerator, denominator)).ToString());
}
