using Harkbook.Listening.Estimators.Beats.Rows;
using Xunit;

namespace Harkbook.Listening.Tests.Estimators.Beats.Rows;

/// <summary>
/// Against the counts that models/beats.json is made of (CPJKU/beat_this_annotations): pieces
/// of 120 to 130 beats a minute are more than those of 60 to 70, and both far more than those of 240 to 250.
/// </summary>
public sealed class TempoHabitsTests
{
    private static readonly TempoHabits Habits = BeatModel.Shipped.Habits;

    [Fact]
    public void UsualTempiAreMoreUsual()
    {
        Assert.True(Habits.At(125) > Habits.At(65));
        Assert.True(Habits.At(65) > Habits.At(245));
    }

    [Fact]
    public void SharesAreOfAllMusic()
    {
        // 64 tempi, twenty to an octave; each share gathers five of them.
        var all = Enumerable.Range(0, 64).Sum(t => Habits.Share(32 * Math.Pow(2, t / 20.0))) / 5;
        Assert.InRange(all, 0.93, 1.01);
    }
}
