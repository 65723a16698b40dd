namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>Chords on the flat sixth degree whose sixth, augmented, opens outwards to the octave on the fifth degree.</summary>
public enum AugmentedSixth
{
    /// <summary>b6, 1 and #4.</summary>
    Italian,

    /// <summary>b6, 1, 2 and #4.</summary>
    French,

    /// <summary>b6, 1, b3 and #4: it sounds like a dominant seventh on the flat sixth degree.</summary>
    German,
}
