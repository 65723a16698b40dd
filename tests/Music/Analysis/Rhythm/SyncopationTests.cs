using CsCheck;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Tests.Analysis.Rhythm;

public class SyncopationTests
{
    // Inside the bar: Longuet-Higgins and Lee 1984, as SynPy3 (commit 487713e, MIT) computed these rows, 0 for its "none".
    // Repeated: the same rule with the bar's first places counted against its last note, by hand.
    // Distance: Gómez et al. 2005, and Keith 1991, from their definitions, by hand.
    [Theory]
    [InlineData("0 4 8 12", 0, 0, 0, 0)]
    [InlineData("0 2 4 6 8 10 12 14", 0, 0, 8, 0)]
    [InlineData("0 6", 2, 2, 2, 3)]
    [InlineData("0 4 6 12", 2, 2, 4, 2)]
    [InlineData("4 12", 1, 3, 0, 6)]
    [InlineData("2 6 10 14", 4, 7, 16, 12)]
    [InlineData("0 3 6 10 12", 4, 4, 14, 6)]
    [InlineData("0 3 7 10 12", 6, 6, 18, 6)]
    [InlineData("0 3 6 10 13", 6, 6, 20, 9)]
    [InlineData("0 4 6 10 12", 2, 2, 6, 3)]
    [InlineData("0 3 6 10 11", 6, 6, 22, 8)]
    [InlineData("0 3 6 10 14", 5, 5, 18, 9)]
    [InlineData("0 3 6 8 11 14", 4, 4, 20, 6)]
    [InlineData("1 5 9 13", 11, 15, 32, 12)]
    public void PublishedMeasuresAgree(string steps, int inBar, int repeated, double distance, int keith)
    {
        Beats[] onsets = [.. steps.Split(' ').Select(s => Beats.Fraction(int.Parse(s), 4))];
        Assert.Equal(inBar, SyncopationRule.InBar(Meter.CommonTime, onsets));
        Assert.Equal(repeated, SyncopationRule.Repeated(Meter.CommonTime, onsets));
        Assert.Equal(distance, BeatDistance.Total(onsets, onsets[0] + Beats.Whole(4)), 9);
        Assert.Equal(keith, KeithRule.Repeated(Meter.CommonTime, onsets));
    }

    // Gómez et al. 2005: means of five well-known clave patterns.
    [Theory]
    [InlineData("0 3 6 10 12", 2.8)]
    [InlineData("0 3 7 10 12", 3.6)]
    [InlineData("0 3 6 10 13", 4)]
    [InlineData("0 4 6 10 12", 1.2)]
    [InlineData("0 3 6 10 14", 3.6)]
    public void DistancesANoteAreThePublishedOnes(string steps, double mean)
    {
        Beats[] onsets = [.. steps.Split(' ').Select(s => Beats.Fraction(int.Parse(s), 4))];
        Assert.Equal(mean, BeatDistance.Mean(onsets, onsets[0] + Beats.Whole(4)), 9);
    }

    // A slower way to the same rule: every place of a bar of sixteenths whose own weight is above that of the note before, taken once
    // for each largest empty stretch, found by looking at the weights of Longuet-Higgins and Lee directly.
    [Fact]
    public void ARuleWithoutATreeAgrees() =>
        Gen.Int[1, (1 << 16) - 1].Sample(mask => SyncopationRule.InBar(Meter.CommonTime, Onsets(mask)) == ByWeights(mask));

    [Fact]
    public void TripletsFallOnTheirOwnTree() =>
        Assert.Equal([0, -3, -3, -2, -1], MetricTree.Units(Meter.CommonTime, [Beats.Zero, Beats.Fraction(1, 3), Beats.Fraction(2, 3)]).Select(u => u.Weight));

    [Fact]
    public void SilenceOfABarIsNoSyncopation() =>
        Assert.Equal(
            [(2, 3)],
            SyncopationRule.Of([(Meter.CommonTime, [Beats.Fraction(7, 2)]), (Meter.CommonTime, []), (Meter.CommonTime, [])]).Select(s => (s.Bar, s.Strength)));

    // Half of eighths placements by twos are level: of two notes on two halves of one beat, none is syncopated.
    [Fact]
    public void ChanceIsCounted()
    {
        Assert.Null(ChancePlacement.ShareBelow(Meter.Of(1, 4), [Beats.Zero, Beats.Fraction(1, 2)]));
        // Two steps a beat, two beats, one note: on 1 nothing, on 1& one level (beat 2), on 2 nothing, on 2& nothing.
        Assert.Equal(7 / 8.0, ChancePlacement.ShareBelow(Meter.Of(2, 4), [Beats.Fraction(1, 2)]));
    }

    // All placements counted one by one with the rule itself, in several meters.
    [Theory]
    [InlineData("4/4", 2, "0 3 6")]
    [InlineData("3/4", 4, "1 5 6 9")]
    [InlineData("6/8", 3, "1 2")]
    [InlineData("6/8", 6, "1 4 7")]
    [InlineData("5/8", 2, "3 4")]
    public void ChanceAgreesWithTheRule(string meter, int perBeat, string steps)
    {
        var m = Meter.Parse(meter);
        int[] taken = [.. steps.Split(' ').Select(int.Parse)];
        Beats[] At(IEnumerable<int> places) => [.. places.Select(s => Beats.Fraction(s, perBeat))];
        int[] all = [.. Enumerable.Range(0, 1 << m.BeatsPerBar * perBeat).Select(mask => Enumerable.Range(0, 20).Where(i => (mask >> i & 1) != 0).ToArray())
            .Where(p => p.Length == taken.Length).Select(p => SyncopationRule.InBar(m, At(p)))];
        var own = SyncopationRule.InBar(m, At(taken));
        Assert.Equal((all.Count(s => s < own) + all.Count(s => s == own) / 2.0) / all.Length, ChancePlacement.ShareBelow(m, At(taken)));
    }

    [Fact]
    public void KeithKeepsToHisGrid()
    {
        Assert.Null(KeithRule.Repeated(Meter.Of(3, 4), [Beats.Zero]));
        Assert.Null(KeithRule.Repeated(Meter.CommonTime, [Beats.Fraction(1, 3)]));
    }

    private static IEnumerable<Beats> Onsets(int mask) => Enumerable.Range(0, 16).Where(i => (mask >> i & 1) != 0).Select(i => Beats.Fraction(i, 4));

    private static int ByWeights(int mask)
    {
        int[] weights = [0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4];
        var (sum, last) = (0, -1);
        for (var step = 0; step < 16;)
        {
            var length = 16;
            while (length > 1 && (step % length != 0 || (mask >> (step + 1) & (1 << (length - 1)) - 1) != 0))
                length /= 2;
            if ((mask >> step & 1) != 0)
                last = step;
            else if (last >= 0)
                sum += Math.Max(0, weights[step] - weights[last]);
            step += length;
        }
        return sum;
    }
}
