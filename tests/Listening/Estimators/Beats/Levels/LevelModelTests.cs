using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Beats.Levels;
using Harkbook.Listening.Estimators.Beats.Rows;
using Xunit;

namespace Harkbook.Listening.Tests.Estimators.Beats.Levels;

/// <summary>Expected by Bayes' rule, worked out by hand.</summary>
public sealed class LevelModelTests
{
    private static readonly UsualChords FewerTheFaster = new(-1, -0.5, 0.5);

    [Fact]
    public void WithNothingElseLevelsShareAsTheirTempiAreUsual()
    {
        var shares = Model(new(0, 0, 0, 0)).Shares([Level(1, 160), Level(2, 80)], Habits);
        Assert.Equal(Math.Exp(Habits.At(80) - Habits.At(160)), shares[1] / shares[0], 1e-9);
        Assert.Equal(1, shares.Sum(), 1e-9);
    }

    [Fact]
    public void ChordsAreUnusualByTheirSpreadsFromTheUsualAtTheTempo()
    {
        Assert.Equal(0, FewerTheFaster.Unusual(new(110, -1, 0)), 1e-9);
        Assert.Equal(0, FewerTheFaster.Unusual(new(220, -1.5, 0)), 1e-9); // an octave faster, half an octave fewer chords a beat
        Assert.Equal(4, FewerTheFaster.Unusual(new(110, 0, 0)), 1e-9); // two spreads off
    }

    [Fact]
    public void WhatSpeaksForALevelCountsByItsWeight()
    {
        var shares = Model(new(0, 0, -0.5, -1)).Shares([Level(1, 110, -1, -2), Level(1, 110, 0, -1)], Habits);
        Assert.Equal(-0.5 * 4 - 1, Math.Log(shares[1] / shares[0]), 1e-9);
    }

    [Fact]
    public void AFasterLevelThanTheRowsHaveCountsLess()
    {
        var shares = Model(new(0, -2, 0, 0)).Shares([Level(1, 110), Level(0.5, 110)], Habits);
        Assert.Equal(-2, Math.Log(shares[1] / shares[0]), 1e-9);
    }

    private static TempoHabits Habits => BeatModel.Shipped.Habits;

    private static LevelModel Model(LevelWeights weights) => new(weights, FewerTheFaster);

    private static LevelRow Level(double ratio, double tempo, double chords = -1, double quarters = 0) =>
        new(Array.IndexOf(BeatRow.Ratios, ratio), null, new([], new double[BeatRow.Ratios.Length], []), new(tempo, chords, quarters));
}
