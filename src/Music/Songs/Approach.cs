namespace Harkbook.Music.Songs;

/// <summary>How a note of a tune is reached.</summary>
public enum Approach
{
    Straight,

    /// <summary>Glided to from the note before.</summary>
    FromNoteBefore,

    /// <summary>Scooped: started somewhere below and glided up at once.</summary>
    FromBelow,

    /// <summary>Started somewhere above and glided down at once.</summary>
    FromAbove,
}
