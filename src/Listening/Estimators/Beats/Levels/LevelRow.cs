using Harkbook.Listening.Estimators.Beats.Rows;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>The best row at one level of the beat.</summary>
/// <param name="Ratio">Its place in <see cref="BeatRow.Ratios"/>, from the best row of all on.</param>
/// <param name="Range">The tempi of the level; null for the best row of all, which keeps to none.</param>
internal sealed record LevelRow(int Ratio, TempoRange? Range, BeatRow Row, LevelTraits Traits);
