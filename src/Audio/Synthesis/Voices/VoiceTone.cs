using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Voices;

/// <summary>One note of a sung line, without its consonants' words.</summary>
/// <param name="Motion">What the voice does to the pitch meanwhile.</param>
public readonly record struct VoiceTone(Seconds At, Seconds Until, Hertz Frequency, double Strength, Vowel Vowel, FingerMotion Motion = default);
