using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A tap on the bar's count.</summary>
/// <param name="Bar">1 for the song's first.</param>
/// <param name="At">Felt beats from the bar's start.</param>
/// <param name="Off">How late the tap was after that place, the taps' common lateness taken off; negative where early.</param>
public readonly record struct PlacedTap(int Bar, Beats At, string Syllable, Seconds Off);
