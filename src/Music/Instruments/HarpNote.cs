namespace Harkbook.Music.Instruments;

/// <summary>Which way the breath goes through a hole.</summary>
public enum Breath
{
    Blow,
    Draw,
}

/// <summary>
/// One note on a harmonica: hole (1 upward), breath, and bending in semitones (0 plain; negative for a bend down;
/// positive, always +1 above the hole's higher reed, for an over-bend).
/// </summary>
public readonly record struct HarpNote(int Hole, Breath Breath, int Bend = 0);
