using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Sustained;

/// <summary>One note of an instrument that is blown or bowed.</summary>
/// <param name="Strength">0 to 1.</param>
/// <param name="Motion">What the player does to the pitch meanwhile.</param>
public readonly record struct SustainedNote(Seconds At, Seconds Until, Hertz Frequency, double Strength, FingerMotion Motion = default);
