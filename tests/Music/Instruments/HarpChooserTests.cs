using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Tests.Instruments;

public class HarpChooserTests
{
    private static readonly Harmonica InC = Harmonica.Richter(PitchName.Parse("C"));

    // Worked by hand: between drawn notes draw 2 spares a change of breath, between blown ones blow 3 does; both are G4.
    [Theory]
    [InlineData("B4 G4 B4", "-3 -2 -3", 0)]
    [InlineData("E4 G4 C5", "+2 +3 +4", 0)]
    [InlineData("C5 D5 C5", "+4 -4 +4", 2)]
    public void TheEasierOfTwoPlacesIsTaken(string tune, string holes, int changes)
    {
        var fit = HarpChooser.Rank(tune.Split(' ').Select(Pitch.Parse), [InC])[0];
        Assert.Equal(holes, string.Join(' ', fit.Ways.Select(w => w[0])));
        Assert.Equal(changes, fit.BreathChanges);
    }

    [Fact]
    public void ABendIsNeverTakenToSpareABreath()
    {
        // B4 bent down from draw 3 could be blow over-bends elsewhere; plain notes stand first however far they lie (worked by hand).
        var fit = HarpChooser.Rank("C4 C7 C4 C7".Split(' ').Select(Pitch.Parse), [InC])[0];
        Assert.Equal("+1 +10 +1 +10", string.Join(' ', fit.Ways.Select(w => w[0])));
        Assert.Equal((4, 27), (fit.Plain, fit.HolesMoved));
    }

    // A chord needs one breath: C and E lie on blow 4 and 5, E and G on blow 5 and 6; D and E are never together (layout, by hand).
    [Fact]
    public void ChordsNeedOneBreath()
    {
        ImmutableArray<Pitch>[] tune = [Chord("C5 E5"), Chord("G5 E5"), Chord("D5 E5")];
        var fit = HarpChooser.Rank(tune, [InC])[0];
        Assert.Equal("+4&+5 +5&+6 ", string.Join(' ', fit.Ways.Select(w => string.Join('&', w))));
        Assert.Equal((1, 0), (fit.NotTogether, fit.Unreachable.Length));
    }

    // A fifth, C and G, is there blown across hole 5; an interval wider than the mouth is not.
    [Fact]
    public void AMouthCoversFiveHoles()
    {
        Assert.NotEmpty(HarpChooser.Rank([Chord("C5 C6")], [InC])[0].Ways[0]);
        Assert.Empty(HarpChooser.Rank([Chord("C4 C6")], [InC])[0].Ways[0]);
    }

    // A chromatic scale is easy with a slide and hard without (common practice).
    [Fact]
    public void AChromaticLineAsksForASlide()
    {
        var scale = Enumerable.Range(60, 13).Select(m => Pitch.FromMidi(m, 2)).ToArray();
        Harmonica[] harps = [InC, Harmonica.Of(HarpLayout.Find("chromatic")!, PitchName.Parse("C"))];
        var best = HarpChooser.Rank(scale, harps)[0];
        Assert.Equal("chromatic", best.Harp.Layout.Name);
        Assert.Equal((13, 0), (best.Plain + best.Slid, best.Bent + best.OverBent));
    }

    private static ImmutableArray<Pitch> Chord(string pitches) => [.. pitches.Split(' ').Select(Pitch.Parse)];
}
