using Harkbook.Listening.Estimators.SecondInstrument;

namespace Harkbook.Listening.Evidence;

/// <summary>One pitch of one frame in which something that isn't plucked may sound.</summary>
/// <param name="Pitch">Semitones above <see cref="LineNetwork.LowestMidi"/>.</param>
/// <param name="Kinds">The chance of each of <see cref="LineNetwork.Kinds"/>.</param>
/// <param name="Onset">The chance that a note starts here.</param>
/// <param name="Off">Semitones that the pitch lies above its semitone.</param>
/// <param name="Level">How loud it is: decibels of the first three partials' power.</param>
internal readonly record struct LineCell(int Pitch, KindShares Kinds, float Onset, float Off, float Level)
{
    /// <summary>The chance that a line sounds here, whatever plays it.</summary>
    public float Chance => Math.Min(1, Kinds.Sum);
}
