namespace Harkbook.Music.Theory;

/// <summary>How the beats of a compound meter (6/8, 9/8, 12/8) are counted aloud; simple meters are counted alike either way.</summary>
public enum Counting
{
    /// <summary>Felt beats, their divisions in words: 1 la li 2 la li ("Integrated Music Theory 2018–19", section 4b).</summary>
    Beats,

    /// <summary>Every division by its number: 1 2 3 4 5 6 (common practice).</summary>
    Divisions,
}
