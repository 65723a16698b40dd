using CsCheck;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Tests.Analysis.Practice;

/// <summary>Expected times are arithmetic by hand: a bar of four beats at 120 a minute lasts 2 s, at half the tempo 4 s.</summary>
public class PracticePlanTests
{
    private const string Facts = "title Sample\npitch A4 = 440 Hz\ntuning E2 A2 D3 G3 B3 E4\ncapo none\nmeter 4/4\ntempo 120\nkey C major\nshape C "
        + "x32010\nshape F 133211\nshape G7 320001\n";
    private const string TwoBars = Facts + "section A\nchords | C | F |\nstrum | d . d . | d . d . |\n";

    [Theory]
    [InlineData(88.5, "100%, 88.5 beats a minute")]
    [InlineData(88.04, "100%, 88 beats a minute")]
    public void ATempoHasOneDecimalWhereItIsNotWhole(double tempo, string name) => Assert.Equal(name, PracticePlan.NameOf(1, tempo));

    [Fact]
    public void SpeedsFollowEachOtherEachAfterACountedBar()
    {
        var plan = Plan(TwoBars, new() { FirstBar = 1, LastBar = 1, Speeds = [0.5, 1], Rounds = 2 });
        Assert.Equal([(0.5, 60.0, 0.0), (1.0, 120.0, 12.0)], plan.Stages.Select(s => (s.Speed, Math.Round(s.Tempo, 6), Math.Round(s.At.Value, 6))));
        Assert.Equal([4.0, 8.0, 14.0, 16.0], plan.Stages.SelectMany(s => s.Rounds).Select(r => Math.Round(r.Value, 6)));
        Assert.Equal([1, 4], plan.CountedBars);
        Assert.Equal(["count in", "1", "1", "count in", "1", "1"], plan.BarNames);
        Assert.Equal(18, plan.Length.Value, 6);
        Assert.Equal(["50%, 60 beats a minute", "100%, 120 beats a minute"], plan.Song.Sections.Select(s => s.Name));
    }

    [Fact]
    public void TheTuneGoesAlongWithItsPlayerAndStopsWithThePassage()
    {
        var plan = Plan(TwoBars + "tune fiddle\ntune | C5 . E5 . | . . G5 . |\n", new() { FirstBar = 1, LastBar = 1, Speeds = [1], Rounds = 2 });
        Assert.Equal(["C5", "E5", "C5", "E5"], plan.Song.Bars.SelectMany(b => b.Tune).Select(n => n.Value.ToString()));
        Assert.Equal([2, 2, 2, 2], plan.Song.Bars.SelectMany(b => b.Tune).Select(n => (int)n.Length.Value));
        Assert.All(plan.Song.Sections, s => Assert.Equal(TunePlayer.Fiddle, plan.Song.TunePlayerIn(s)));
    }

    [Theory]
    [InlineData(RoundLead.CountEachSpeed, "1", 6)]
    [InlineData(RoundLead.CountEachRound, "1 3", 8)]
    [InlineData(RoundLead.RestEachRound, "1", 8)]
    public void WhatComesBetweenRoundsIsChosen(RoundLead lead, string counted, double seconds)
    {
        var plan = Plan(TwoBars, new() { FirstBar = 2, LastBar = 2, Speeds = [1], Rounds = 2, Lead = lead });
        Assert.Equal(counted, string.Join(' ', plan.CountedBars));
        Assert.Equal(seconds, plan.Length.Value, 6);
    }

    // Anchors say that bar 1 lasts 2 s and bar 2 lasts 3 s: 8 beats in 5 s are 96 a minute, and a bar of the mean 2.5 s.
    [Theory]
    [InlineData(false, 2.5, 5.0, 7.5)]
    [InlineData(true, 2.0, 4.0, 7.0)]
    public void BarsRunAtTheirMeanOrAsOnTheRecord(bool asRecorded, double first, double second, double end)
    {
        var text = TwoBars.Replace("section A\n", "section A\nanchors 1 = 0:10 2 = 0:12 3 = 0:15\n");
        var plan = Plan(text, new() { FirstBar = 1, LastBar = 2, Speeds = [1], Rounds = 1, AsRecorded = asRecorded });
        Assert.Equal(96, plan.Stages[0].Tempo, 6);
        var clock = new SongClock(plan.Song);
        Assert.Equal([first, second, end], new[] { 2, 3, 4 }.Select(bar => Math.Round(clock.TimeOf(bar).Value, 6)));
    }

    [Fact]
    public void NothingRingsPastARound() =>
        Gen.Select(Gen.Int[1, 3], Gen.Int[1, 4]).Sample((last, rounds) =>
        {
            var song = Facts + "section A\nchords | C | F | C |\nstrum | d . . . | . . . . | . . . . |\nsung | x . . . | . . x . | . . . . |\n";
            var plan = Plan(song, new() { FirstBar = 1, LastBar = last, Speeds = [1], Rounds = rounds });
            var clock = new SongClock(plan.Song);
            var ends = plan.Stages[0].Rounds.Select(r => r.Value + 2.0 * last).ToArray();
            Assert.All(plan.Song.Bars, bar => Assert.All(bar.Sung, claim =>
                Assert.Contains(ends, e => e >= clock.TimeOf(bar.Number, claim.Start).Value && e >= clock.TimeOf(bar.Number, claim.Start).Value
                    + claim.Length.Value * 0.5 - 1e-6)));
        });

    [Theory]
    [InlineData(0, 1, 1)]
    [InlineData(1, 3, 1)]
    [InlineData(1, 1, 0)]
    [InlineData(1, 1, 17)]
    public void ValuesOutOfRangeAreRefused(int first, int last, int rounds) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(TwoBars, new() { FirstBar = first, LastBar = last, Rounds = rounds }));

    // C x32010 to F 133211: usual fingers 3 2 1 and 1 3 4 2 1 1 share none. C to G7 320001: 3 2 0 1 0 and 3 2 0 0 0 1 share none at one fret.
    // Strings moved by hand, low to high: C to F – +0 (3 to 3), +1 (2 to 3), +2 (0 to 2), 0 (1 to 1), +1 (0 to 1): 4; F to G7: 2+1+3+2+1+0 = 9.
    [Fact]
    public void TheWidestChangeIsTheOneThatMovesTheStringsMost()
    {
        var song = SongText.Parse(Facts + "section A\nchords | C | F | G7 |\n", "a.hark").Song!;
        var (from, to) = ChangeDrill.Widest(song)!.Value;
        Assert.Equal(("F", "G7"), (from.Name, to.Name));
        var drill = ChangeDrill.Of(song, from, to);
        Assert.Equal(["F", "G7"], drill.Song.Bars.Select(b => b.Chords.Single().Value.Name));
        Assert.All(drill.Song.Bars, b => Assert.Equal(4, b.Strums.Length));
    }

    private static PracticePlan Plan(string text, PracticeOptions options) => PracticePlan.Of(SongText.Parse(text, "sample.hark").Song!, options);
}
