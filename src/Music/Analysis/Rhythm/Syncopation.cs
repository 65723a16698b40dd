using Harkbook.Units;

namespace Harkbook.Music.Analysis.Rhythm;

/// <summary>A note that a stronger place after it leaves unanswered.</summary>
/// <param name="Bar">The bar of the silent place, 1 for the first.</param>
/// <param name="Silent">Where nothing starts although the place is stronger, in felt beats of that bar.</param>
/// <param name="NoteBar">The bar of the note before.</param>
/// <param name="Note">Where that note starts, in felt beats of its own bar.</param>
/// <param name="Strength">By how many levels the silent place is stronger; 1 or more.</param>
public readonly record struct Syncopation(int Bar, Beats Silent, int NoteBar, Beats Note, int Strength);
