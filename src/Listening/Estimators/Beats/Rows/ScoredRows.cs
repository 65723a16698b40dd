namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>All rows of a stretch, with the score of every step at every place by the evidence alone; shape (steps × 9).</summary>
internal sealed record ScoredRows(RowGraph Rows, double[] Scores);
