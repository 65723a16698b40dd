namespace Harkbook.Music.Analysis;

/// <summary>The parts of an explanation, in the order in which they are told.</summary>
public enum RemarkTopic
{
    /// <summary>Key, numerals, borrowed and applied chords, what each chord does.</summary>
    Harmony,

    /// <summary>What two parts make together, and melody over chords.</summary>
    Layers,

    /// <summary>The tune's scale, range and notes over the chords.</summary>
    Tune,

    /// <summary>How the notes of one shape move to those of the next.</summary>
    Hand,

    /// <summary>The harmonica or another second instrument.</summary>
    SecondInstrument,

    /// <summary>The sung rhythm against the guitar's.</summary>
    Singing,

    /// <summary>Tuning and capo, getting there from another tuning.</summary>
    Tuning,

    /// <summary>What other songs of the songbook share or contradict.</summary>
    Songbook,
}
