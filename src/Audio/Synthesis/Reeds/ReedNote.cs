using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Reeds;

/// <summary>One reed's note.</summary>
/// <param name="Strength">0 to 1: how hard the breath is.</param>
/// <param name="Bend">Where the pitch starts, relative to where it settles a tenth of a second later: negative scoops up.</param>
public readonly record struct ReedNote(Seconds At, Seconds Until, Hertz Frequency, double Strength, Cents Bend = default);
