using Harkbook.Listening.Proposing.Hands;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing.Hands;

/// <summary>
/// From fret p to p + n lie 650 mm · 2^(−p/12) · (1 − 2^(−n/12)) of string (equal temperament): 92 mm from the second fret to the fifth, 100 from the
/// fifth to the ninth, 145 from the second to the seventh; a usual hand reaches 110. Beside an open string a hand may be anywhere.
/// </summary>
public class JoinReachTests
{
    private static readonly JoinReach Reach = new(Hand.Usual, Capo.None);

    [Theory]
    [InlineData(2, 5, Attack.HammeredOn)]
    [InlineData(5, 9, Attack.HammeredOn)]
    [InlineData(5, 2, Attack.PulledOff)]
    [InlineData(9, 0, Attack.PulledOff)]
    [InlineData(5, 5, Attack.Picked)]
    public void ANoteIsJoinedToTheOneBeforeAsTheFretsGo(int before, int fret, Attack attack) =>
        Assert.Equal(attack, PickPlacing.Joined(Placed(1, fret, Attack.HammeredOn), Placed(0, before, Attack.Picked), Reach)!.Note.Attack);

    [Theory]
    [InlineData(2, 7)]
    [InlineData(11, 2)]
    public void WhatNoFingerReachesFromThereIsNotWritten(int before, int fret) =>
        Assert.Null(PickPlacing.Joined(Placed(1, fret, Attack.HammeredOn), Placed(0, before, Attack.Picked), Reach));

    [Fact]
    public void ASlideGoesAsFarAsItLikes() =>
        Assert.Equal(Attack.Slid, PickPlacing.Joined(Placed(1, 12, Attack.Slid), Placed(0, 2, Attack.Picked), Reach)!.Note.Attack);

    private static PlacedNote Placed(int beat, int fret, Attack attack) => new(0, Beats.Whole(beat), new(3, fret, attack), 0.9, [], null);
}
