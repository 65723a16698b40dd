using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Estimators.Tunings;

// Open strings and open-position chords are common practice.
public class HandModelTests
{
    private static readonly int[] Standard = [40, 45, 50, 55, 59, 64], OpenD = [38, 45, 50, 54, 57, 62];
    private static readonly int[] OpenE = [40, 47, 52, 56, 59, 64];

    [Fact]
    public void OpenStringsAreLikeliestOnTheirOwnGuitar() =>
        Assert.True(new HandModel(OpenD, 0.4).LogChance(OpenD) > new HandModel(Standard, 0.4).LogChance(OpenD) + 3);

    [Fact]
    public void NotesBelowEveryStringAreHardlyAnyHands() =>
        Assert.True(new HandModel(Standard, 0.4).LogChance([36, 45, 52]) < new HandModel(Standard, 0.4).LogChance([40, 45, 52]) - 2);

    [Fact]
    public void ThreeNotesOnTwoStringsDontGo() =>
        Assert.True(new HandModel(Standard, 0.4).LogChance([40, 41, 42, 43]) < new HandModel(Standard, 0.4).LogChance([40, 45, 50, 55]) - 5);

    [Fact]
    public void WhateverIsSoundedKeepsToAllTwelveClasses() =>
        Assert.Equal(0, new HandModel(Standard, 0.4).LogChanceOfClasses([.. Enumerable.Repeat(true, 12)]), 0.1);

    [Fact]
    public void AnOpenMajorChordIsAChoiceThatPlayersMake()
    {
        bool[] major = [.. Enumerable.Range(0, 12).Select(pc => pc is 4 or 8 or 11)];

        Assert.True(Chosen(Standard, OpenE, major) > Chosen([36, 43, 50, 57, 64, 71], OpenE, major) + 2);
    }

    [Fact]
    public void AWideReachIsAnOddChoice()
    {
        bool[] major = [.. Enumerable.Range(0, 12).Select(pc => pc is 4 or 8 or 11)];

        Assert.True(Chosen(Standard, [40, 47, 52, 56, 64], major) > Chosen(Standard, [40, 47, 56, 64, 71], major));
    }

    // F2 is only at fret 1 of the low E string; C#3 is at its fret 9 and at fret 4 of the A string: 97.6 mm from fret 1 on a 650 mm scale.
    [Fact]
    public void WhatASmallHandCantHoldIsUnlikelyOfIt()
    {
        var small = Hand.Usual with { LongestReach = Length.FromMillimetres(70) };

        Assert.True(new HandModel(Standard, 0.4, small).LogChance([41, 49]) < new HandModel(Standard, 0.4).LogChance([41, 49]) - 1);
        Assert.True(new HandModel(Standard, 0.4, small).LogChance([41, 48]) > new HandModel(Standard, 0.4, small).LogChance([41, 49]) + 1);
    }

    private static double Chosen(int[] open, int[] pitches, bool[] classes) => new ShapeModel(open).LogChance(pitches, classes, ShapeModel.Strays(pitches));
}
