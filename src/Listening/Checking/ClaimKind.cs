namespace Harkbook.Listening.Checking;

/// <summary>What a claim is about.</summary>
public enum ClaimKind
{
    Pitch,

    /// <summary>The tuning and the capo as a whole.</summary>
    Tuning,

    /// <summary>One string of the tuning, by all that is struck on it.</summary>
    TuningString,
    Meter,
    Tempo,
    Key,
    Harp,

    /// <summary>A section that is said to be like another.</summary>
    Section,
    Bar,
    Chord,
    Shape,

    /// <summary>A stroke over the strings: where it falls, and down or up.</summary>
    Stroke,
    Note,

    /// <summary>On which string, at which fret a note is picked.</summary>
    PlaceOnNeck,

    /// <summary>Whether a note is hammered, pulled, slid or picked.</summary>
    Attack,

    /// <summary>A hole of the harmonica, blown or drawn.</summary>
    Hole,
    Syllable,

    /// <summary>A note of the tune that a voice, whistle or fiddle has.</summary>
    TuneNote,

    /// <summary>That no more notes start than what is written: weighed against each that is heard and isn't written.</summary>
    Silence,

    /// <summary>That the strings are struck no more often than is written: weighed against each stroke that is heard and isn't written.</summary>
    StillHand,
}
