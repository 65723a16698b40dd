namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>What each thing that speaks for a level counts, in log-odds for each unit.</summary>
/// <param name="Rows">The logarithm of the share of all rows of beats at the level.</param>
/// <param name="Faster">That the best of all rows is a slower one.</param>
/// <param name="UnusualChords"><see cref="UsualChords.Unusual"/>.</param>
/// <param name="LowQuarters"><see cref="LevelTraits.LowQuarters"/>.</param>
internal sealed record LevelWeights(double Rows, double Faster, double UnusualChords, double LowQuarters);
