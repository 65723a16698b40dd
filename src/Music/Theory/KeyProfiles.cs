using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>Published key profiles. Values as the libraries music21 and essentia carry them, which agree.</summary>
public static class KeyProfiles
{
    /// <summary>Probe-tone ratings by listeners.</summary>
    public static KeyProfile KrumhanslKessler { get; } = new(
        "Krumhansl–Kessler", "C. Krumhansl and E. Kessler, Psychological Review 89(4), 1982",
        [6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88],
        [6.33, 2.68, 3.52, 5.38, 2.60, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17]);

    /// <summary>Krumhansl and Kessler's, revised by hand for classical themes.</summary>
    public static KeyProfile Temperley { get; } = new(
        "Temperley", "D. Temperley, Music Perception 17(1), 1999",
        [5.0, 2.0, 3.5, 2.0, 4.5, 4.0, 2.0, 4.5, 2.0, 3.5, 1.5, 4.0],
        [5.0, 2.0, 3.5, 4.5, 2.0, 4.0, 2.0, 4.5, 3.5, 2.0, 1.5, 4.0]);

    /// <summary>How often each degree occurs in the Kostka–Payne textbook's excerpts.</summary>
    public static KeyProfile KostkaPayne { get; } = new(
        "Temperley–Kostka–Payne", "D. Temperley, Music and Probability, 2007",
        [.748, .060, .488, .082, .670, .460, .096, .715, .104, .366, .057, .400],
        [.712, .084, .474, .618, .049, .460, .105, .747, .404, .067, .133, .330]);

    /// <summary>How often each degree occurs in 490 pieces.</summary>
    public static KeyProfile AlbrechtShanahan { get; } = new(
        "Albrecht–Shanahan", "J. Albrecht and D. Shanahan, Music Perception 31(1), 2013",
        [.238, .006, .111, .006, .137, .094, .016, .214, .009, .080, .008, .081],
        [.220, .006, .104, .123, .019, .103, .012, .214, .062, .022, .061, .052]);

    /// <summary>How often each degree occurs in European folk melodies.</summary>
    public static KeyProfile AardenEssen { get; } = new(
        "Aarden–Essen", "B. Aarden, Dynamic Melodic Expectancy, Ohio State University, 2003",
        [17.7661, .145624, 14.9265, .160186, 19.8049, 11.3587, .291248, 22.062, .145624, 8.15494, .232998, 4.95122],
        [18.2648, .737619, 14.0499, 16.8599, .702494, 14.4362, .702494, 18.6161, 4.56621, 1.93186, 7.37619, 1.75623]);

    public static ImmutableArray<KeyProfile> All { get; } = [KrumhanslKessler, Temperley, KostkaPayne, AlbrechtShanahan, AardenEssen];

    /// <summary>
    /// Steps around the circle of fifths between two keys' signatures, 0–6: C and G are 1 apart, C and A minor 0.
    /// </summary>
    public static int FifthsApart(Key a, Key b)
    {
        var steps = Floor.Mod(a.Signature - b.Signature, 12);
        return Math.Min(steps, 12 - steps);
    }
}
