using Harkbook.Listening.Estimators.Beats.Levels;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>All rows of a stretch, with the score of every step at every place by the evidence alone; shape (steps × 9).</summary>
internal sealed record ScoredRows(RowGraph Rows, double[] Scores)
{
    /// <summary>The level that people tap, as far as it is heard; null where only curves are known.</summary>
    public HeardLevel? Level { get; init; }
}
