namespace Harkbook.Music.Analysis.Hands;

/// <summary>What one string does from a shape to the next. A fret is a semitone, so frets moved are semitones moved.</summary>
/// <param name="StringIndex">0 for the low side.</param>
/// <param name="From">The fret in the shape before; null where the string is muted.</param>
/// <param name="To">The fret in the next shape; null where it is muted.</param>
public readonly record struct StringMove(int StringIndex, int? From, int? To)
{
    /// <summary>Semitones up, negative down; null where the string doesn't sound in both shapes.</summary>
    public int? Semitones => To - From;

    /// <summary>Whether it keeps its note.</summary>
    public bool IsKept => Semitones == 0;
}
