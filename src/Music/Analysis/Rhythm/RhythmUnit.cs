using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A stretch of a bar that is as large as the meter's tree allows while nothing starts inside it: a note, or a rest or tie.</summary>
/// <param name="Start">Felt beats from the bar's start.</param>
/// <param name="Weight">0 on the downbeat, one less for each level of the meter below it.</param>
/// <param name="Sounds">Whether something starts at its start.</param>
public readonly record struct RhythmUnit(Beats Start, int Weight, bool Sounds);
