using Harkbook.Listening.Estimators.Beats.Rows;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>
/// How likely each level of a beat is the one that people tap, after Bayes: how usual its tempo is, once and in full, times what speaks for it
/// (M. McKinney and D. Moelants, "Ambiguity in tempo perception", Music Perception 24, 2006). The numbers stand in models/levels.json.
/// </summary>
internal sealed record LevelModel(LevelWeights Weights, UsualChords Chords)
{
    private const double Slight = 0.05;

    public static LevelModel Shipped { get; } = FittedNumbers.Read<LevelModel>("levels.json");

    /// <summary>How likely each of several levels of one recording is the one that people tap; the shares sum to 1.</summary>
    /// <param name="levels">The best row at each, the best of all first.</param>
    public double[] Shares(IReadOnlyList<LevelRow> levels, TempoHabits habits) => Softmax.Of([.. levels.Select(l =>
        habits.At(l.Traits.Tempo) + Weights.UnusualChords * Chords.Unusual(l.Traits) + Weights.LowQuarters * l.Traits.LowQuarters
        + Weights.Rows * Math.Log(levels[0].Row.Tempi[l.Ratio] + Slight) + (BeatRow.Ratios[l.Ratio] < 1 ? Weights.Faster : 0))]);
}
