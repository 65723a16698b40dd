namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>Peaks where one partial of a note may lie.</summary>
/// <param name="Number">Of the partial, from 1.</param>
/// <param name="Resolution">In cents: the width of the window's bin there.</param>
internal sealed record PartialPeaks(int Number, float Resolution, List<CandidatePeak> Peaks);

/// <summary>A peak that may be a partial of a note.</summary>
/// <param name="Cents">Above the partial's place without stiffness at the pitch as named.</param>
/// <param name="Decibels">Above the floor.</param>
/// <param name="Others">How many partials of other notes may lie there.</param>
internal readonly record struct CandidatePeak(float Cents, float Decibels, float Others);
