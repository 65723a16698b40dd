using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory.Symbols;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Instruments;

/// <summary>Hands of other sizes than the usual 110 mm.</summary>
public class HandTests
{
    // By hand: n frets are 1 − 2^(−n/12) of the string that is left, so that a reach of r usual ones spans −12·log2(1 − r·(1 − 2^(−n/12))) frets.
    // 90 mm: 1 − 0.8182·0.2063 = 0.8312 → 3.20; 70 mm: 1 − 0.6364·0.2063 = 0.8687 → 2.44 and 1 − 0.6364·0.1591 = 0.8987 → 1.85;
    // 140 mm: 1 − 1.2727·0.2063 = 0.7374 → 5.27.
    [Theory]
    [InlineData(110, 1, 1)]
    [InlineData(110, 3, 3)]
    [InlineData(110, 4, 4)]
    [InlineData(90, 4, 3)]
    [InlineData(70, 4, 2)]
    [InlineData(70, 3, 1)]
    [InlineData(140, 4, 5)]
    public void AHandSpansFretsAsItsReachIs(double millimetres, int usual, int frets) => Assert.Equal(frets, Of(millimetres).FretsWhereUsual(usual));

    [Fact]
    public void NoLargerHandSpansLess() => Assert.All(Enumerable.Range(60, 90), mm =>
        Assert.All(Enumerable.Range(1, 4), usual => Assert.True(Of(mm).FretsWhereUsual(usual) <= Of(mm + 1).FretsWhereUsual(usual))));

    // FretSpacing's arithmetic: 1 to 4 is 97.6 mm on a 650 mm scale.
    [Theory]
    [InlineData("Fmaj7")]
    [InlineData("Bm7b5")]
    [InlineData("C9")]
    public void ASmallerHandIsGivenNoShapeBeyondItsReach(string symbol)
    {
        var (usual, small) = (Widest(symbol, Hand.Usual), Widest(symbol, Of(80)));

        Assert.InRange(small, 1, 80);
        Assert.InRange(usual, 80.1, 110);
    }

    private static double Widest(string symbol, Hand hand) =>
        VoicingSearch.Find(ChordSymbol.Read(symbol), Tuning.Standard, Capo.None, new VoicingOptions { Hand = hand, Results = 40 })
            .Max(v => hand.Distance(v.Shape.FirstFret ?? 0, v.Shape.LastFret ?? 0).Millimetres);

    private static Hand Of(double millimetres) => Hand.On(Tuning.Standard, Length.FromMillimetres(millimetres));
}
