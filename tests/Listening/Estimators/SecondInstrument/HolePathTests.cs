using System.Collections.Immutable;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.SecondInstrument;

/// <summary>Harps and holes from notes alone. The Richter layout's pitches are tested against published tables elsewhere; positions are common
/// practice.</summary>
public class HolePathTests
{
    private static ImmutableArray<HeardLineNote> Line(Harmonica harp, string holes) =>
    [
        .. holes.Split(' ').SelectMany((breath, i) => breath.Split('&').Select(h => new HeardLineNote(
            harp.PitchOf(HarpNote.Parse(h)).Midi, default, Seconds.FromSeconds(0.5 * i), Seconds.FromSeconds(0.5 * i + 0.45), 0.95))),
    ];

    public static TheoryData<string> Keys => [.. Harmonica.UsualKeys.Select(k => k.ToString())];

    [Theory]
    [MemberData(nameof(Keys))]
    public void TheScaleOfAHarpsOwnKeyNamesTheHarp(string key)
    {
        var harp = Harmonica.Richter(PitchName.Parse(key));
        var ranked = new HarpFinder(Duet.InKey($"{key} major")).Rank(Line(harp, "+4 -4 +5 -5 +6 -6 -7 +7 -7 -6 +6 -5 +5 -4 +4"));
        Assert.Equal((harp.Key, 1), (ranked.Best.Key, ranked.Best.Position));
    }

    [Fact]
    public void CrossHarpWithBendsIsHeardAFifthAboveTheHarp()
    {
        var harp = Harmonica.Richter(PitchName.Parse("A"));
        var ranked = new HarpFinder(Duet.InKey("E major")).Rank(Line(harp, "-2 -3' +4 -4' -4 +4 -3' -2 -2'' -1 -2 -3 +4 -4 -5 -4 +4 -2&-3 -1&-2"));
        Assert.Equal((harp.Key, 2), (ranked.Best.Key, ranked.Best.Position));
        Assert.Contains("2 of 2 double notes on one breath", ranked.Candidates[0].Evidence);
    }

    [Theory]
    [InlineData("C", 1, "+4 -4 +5 -5 +6 -6 -7 +7")]
    [InlineData("G", 2, "-2 -3 +4 -4 -5 +6 -3' -2''")]
    [InlineData("D", 2, "-1&-2 -2&-3 -4&-5 +4&+5 +5&+6 -4")]
    public void EveryHoleOfALineIsGivenBack(string key, int position, string holes)
    {
        var harp = Harmonica.Richter(PitchName.Parse(key));
        var placed = new HolePath(harp, position).Place(Line(harp, holes));
        var expected = holes.Split(' ').SelectMany(b => b.Split('&')).Select(HarpNote.Parse).OrderBy(h => h.ToString());
        Assert.Equal(expected, placed.Select(n => n.Holes!.Best).OrderBy(h => h.ToString()));
    }

    [Fact]
    public void ThePitchThatTwoHolesShareIsNamedByTheBreathAroundIt()
    {
        // Draw 2 and blow 3 are one pitch on a Richter harp (published layout).
        var harp = Harmonica.Richter(PitchName.Parse("C"));
        Assert.Equal("-2", new HolePath(harp, 2).Place(Line(harp, "-1 -2 -3"))[1].Holes!.Best.ToString());
        var blown = new HolePath(harp, 1).Place(Line(harp, "+4 +5 +3 +4 +5"))[2].Holes!;
        Assert.Equal("+3", blown.Best.ToString());
        Assert.Equal("-2", blown.Candidates[1].Value.ToString());
    }

    [Fact]
    public void ANoteThatTheHarpHasntGotHasNoHole()
    {
        var harp = Harmonica.Richter(PitchName.Parse("C"));
        Assert.Null(new HolePath(harp, 1).Place([new(50, default, default, Seconds.FromSeconds(1), 0.9)])[0].Holes);
    }
}
