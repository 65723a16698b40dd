using Harkbook.Audio.Synthesis.Strings;
using Harkbook.Units;

namespace Harkbook.Sounding;

/// <summary>A note of the guitar as it is about to sound.</summary>
/// <param name="StringIndex">0 is the lowest.</param>
/// <param name="Midi">Equal-tempered pitch; frets and capo are in it.</param>
/// <param name="Until">When it is let go of, unless the string is played again first.</param>
/// <param name="Strength">0 to 1.</param>
/// <param name="Off">How far the pitch lies from its equal-tempered one, as a harmonic's does.</param>
/// <param name="Motion">What the fretting finger does meanwhile.</param>
internal readonly record struct PlayedNote(int StringIndex, int Midi, Seconds At, Seconds Until, double Strength, PluckKind Kind, Cents Off = default,
    FingerMotion Motion = default);
