namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Where a chord's notes come from, seen from the key.</summary>
public enum OriginKind
{
    /// <summary>No chord sounds.</summary>
    None,

    /// <summary>Every note is in the key's scale.</summary>
    Native,

    /// <summary>In minor, the seventh degree is raised so that it leads home; native too, as textbooks have it.</summary>
    LeadingNote,

    /// <summary>A chord of the key with a note beside it that isn't in the scale, as in V7b9.</summary>
    Coloured,

    /// <summary>From another mode on the same home note.</summary>
    Borrowed,

    /// <summary>The major chord on the flat second degree.</summary>
    Neapolitan,

    /// <summary>It is to another chord of the key what five, seven or two is to home.</summary>
    Applied,

    /// <summary>A chord on the flat sixth degree that opens out to the five chord.</summary>
    AugmentedSixth,

    /// <summary>A dominant seventh a half step above the chord that it leads to, in place of the one a fifth above.</summary>
    TritoneSubstitute,

    /// <summary>Blues practice: a seventh on the one or four chord that wants to go nowhere.</summary>
    BluesSeventh,

    /// <summary>A diminished seventh that shares its neighbour's root, or stands between two chords a step apart.</summary>
    PassingDiminished,

    /// <summary>A triad whose root lies a third from home and whose quality is not the key's.</summary>
    ChromaticMediant,

    /// <summary>None of these.</summary>
    Chromatic,
}
