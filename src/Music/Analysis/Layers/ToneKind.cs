namespace Harkbook.Music.Analysis.Layers;

/// <summary>
/// What a note of a melody is over its chord. Non-chord tones by how they are approached and left, as "Open Music Theory" tells
/// them under "Embellishing tones": a step is a second, a leap anything wider.
/// </summary>
public enum ToneKind
{
    ChordTone,

    /// <summary>Approached by step, left by step the same way.</summary>
    Passing,

    /// <summary>Approached by step, left by step back to the note before.</summary>
    Neighbour,

    /// <summary>Held or struck again from the chord before, where it belonged; left by step down.</summary>
    Suspension,

    /// <summary>The same, left by step up.</summary>
    Retardation,

    /// <summary>Approached by leap, or from silence; left by step.</summary>
    Appoggiatura,

    /// <summary>Approached by step, left by leap the other way.</summary>
    Escape,

    /// <summary>Comes before its chord: struck again, or held, as a note of the next one.</summary>
    Anticipation,

    /// <summary>Held or repeated while the chord under it changes and returns to it.</summary>
    Pedal,

    /// <summary>None of these, and no clash: an added note that colours the chord.</summary>
    Tension,

    /// <summary>None of these, a semitone above a note of the chord or a second third.</summary>
    Free,
}
