namespace Harkbook.Music.Songs;

/// <summary>How a note on a string starts.</summary>
public enum Attack
{
    Picked,

    /// <summary>By a finger coming down on the sounding string.</summary>
    HammeredOn,

    /// <summary>By a finger leaving the sounding string.</summary>
    PulledOff,

    /// <summary>By the finger moving along the sounding string from the note before.</summary>
    Slid,

    /// <summary>By a finger of the picking hand coming down on the neck.</summary>
    Tapped,

    /// <summary>Picked somewhere below and slid up at once.</summary>
    SlidFromBelow,

    /// <summary>Picked somewhere above and slid down at once.</summary>
    SlidFromAbove,
}
