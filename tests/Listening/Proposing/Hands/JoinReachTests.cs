using Harkbook.Listening.Proposing.Hands;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing.Hands;

/// <summary>A hand covers a fret a finger and stretches to one more: five frets from a sounding note (common practice).</summary>
public class JoinReachTests
{
    [Theory]
    [InlineData(2, 7, Attack.HammeredOn)]
    [InlineData(7, 2, Attack.PulledOff)]
    [InlineData(5, 5, Attack.Picked)]
    public void ANoteIsJoinedToTheOneBeforeAsTheFretsGo(int before, int fret, Attack attack) =>
        Assert.Equal(attack, PickPlacing.Joined(Placed(1, fret, Attack.HammeredOn), Placed(0, before, Attack.Picked))!.Note.Attack);

    [Theory]
    [InlineData(2, 11)]
    [InlineData(9, 0)]
    public void WhatNoFingerReachesFromThereIsNotWritten(int before, int fret) =>
        Assert.Null(PickPlacing.Joined(Placed(1, fret, Attack.HammeredOn), Placed(0, before, Attack.Picked)));

    [Fact]
    public void ASlideGoesAsFarAsItLikes() =>
        Assert.Equal(Attack.Slid, PickPlacing.Joined(Placed(1, 12, Attack.Slid), Placed(0, 2, Attack.Picked))!.Note.Attack);

    private static PlacedNote Placed(int beat, int fret, Attack attack) => new(0, Beats.Whole(beat), new(3, fret, attack), 0.9, [], null);
}
