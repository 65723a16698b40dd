namespace Harkbook.Music.Analysis;

/// <summary>How usual something is by a measure that is named with it.</summary>
/// <param name="Measure">The measure and its figure, as in "flat seven is the root of 8% of chords in rock (de Clercq and Temperley 2011)".</param>
public sealed record Usualness(Frequency Frequency, string Measure);

/// <summary>How often something is met, in words.</summary>
public enum Frequency
{
    /// <summary>Most songs of the kind do it.</summary>
    Usual,

    /// <summary>Met often enough to have a name, seldom enough to be heard as a colour.</summary>
    Uncommon,

    /// <summary>A player would ask about it.</summary>
    Rare,
}
