using Harkbook.Listening.Proposing;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Tests.Proposing;

/// <summary>What a person claimed stands in the draft as decided, the rest as heard. Bars of 2 s from 0:01, written by hand.</summary>
public class ClaimedFactsTests
{
    private static readonly Hearing Heard =
        HandMade.Hearing(HandMade.Beats(HandMade.Every(0.5, 16), 1, 2, 3, 4), [HandMade.Chord("C", 1, 9)]);

    private static Song Propose(Claims claims) => SongProposer.Propose(Heard with { Claims = claims }, "Low Lamp", "low-lamp.wav");

    [Fact]
    public void NothingClaimedNothingDecided()
    {
        var song = Propose(Claims.None);
        Assert.All([song.Tuning.Standing, song.Meter.Standing, song.Tempo.Standing, song.Key.Standing], s => Assert.Equal(StandingKind.Heard, s.Kind));
        Assert.All(song.Sections.SelectMany(s => s.Anchors), a => Assert.Equal(StandingKind.Heard, a.Standing.Kind));
    }

    [Fact]
    public void AClaimedFactIsDecidedAndItsNeighboursAreNot()
    {
        var song = Propose(new() { Tuning = Heard.Tuning.Best.Tuning, Meter = Meter.CommonTime });
        Assert.Equal((StandingKind.Decided, StandingKind.Decided), (song.Tuning.Standing.Kind, song.Meter.Standing.Kind));
        Assert.Equal((StandingKind.Heard, StandingKind.Heard), (song.Capo.Standing.Kind, song.Tempo.Standing.Kind));
    }

    [Fact]
    public void AClaimedBarStartIsAnAnchorAtItsTime()
    {
        var start = Heard.Beats.Where(b => b.PositionInBar == 1).ElementAt(1).Time + Seconds.FromMilliseconds(12);
        var song = Propose(new() { Beats = [new(start, 1)] });
        var decided = Assert.Single(song.Sections.SelectMany(s => s.Anchors), a => a.Standing.Kind == StandingKind.Decided);
        Assert.Equal(start.Value, decided.At.Value, 1e-9);
    }

    [Fact]
    public void AClaimFarFromEveryBarIsNoAnchor()
    {
        var between = Heard.Beats[1].Time;
        Assert.DoesNotContain(Propose(new() { Beats = [new(between, 1)] }).Sections.SelectMany(s => s.Anchors), a => a.Standing.Kind == StandingKind.Decided);
    }
}
