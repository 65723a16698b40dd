using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Voices;

/// <summary>One syllable of a sung line, without its consonants' words.</summary>
public readonly record struct VoiceTone(Seconds At, Seconds Until, Hertz Frequency, double Strength, Vowel Vowel);
