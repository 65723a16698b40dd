using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Layers;

/// <summary>What the notes of an upper layer are above the chord below them.</summary>
public static class UpperStructure
{
    /// <summary>
    /// The degree of a pitch class (0–11) above a chord's root: a note of the chord keeps its own degree; others become the tension
    /// that they are heard as: three semitones beside a major third are a sharp ninth, six beside a perfect fifth a sharp eleventh,
    /// nine are a thirteenth over a seventh and else a sixth.
    /// </summary>
    public static Interval Degree(Chord lower, int pitchClass)
    {
        foreach (var interval in lower.Quality.Intervals)
        {
            if ((lower.Root + interval).PitchClass == pitchClass)
                return interval;
        }
        var above = Floor.Mod(pitchClass - lower.Root.PitchClass, 12);
        return Interval.ParseDegree(Tension(above, lower.Quality));
    }

    /// <summary>The degrees of an upper layer's notes, in the order given.</summary>
    public static ImmutableArray<Interval> Degrees(Chord lower, IEnumerable<PitchName> upper) => [.. upper.Select(n => Degree(lower, n.PitchClass))];

    /// <summary>
    /// Whether a note belongs to the chord or colours it without clashing: no minor ninth above one of the chord's notes, no second
    /// third; over a dominant seventh altered ninths and thirteenths are colours too (common practice).
    /// </summary>
    public static bool IsColour(Chord lower, int pitchClass)
    {
        var degree = Degree(lower, pitchClass).DegreeName;
        return lower.Notes.Any(n => n.PitchClass == pitchClass)
            || (ChordTraits.IsDominantSeventh(lower.Quality) && degree is ("b9" or "#9" or "#11" or "b13"))
            || (degree != "#9" && !lower.Notes.Any(n => Floor.Mod(pitchClass - n.PitchClass, 12) == 1));
    }

    private static string Tension(int above, ChordQuality quality)
    {
        var held = quality.PitchClasses;
        return above switch
        {
            0 => "1",
            1 => "b9",
            2 => "9",
            3 => held.Contains(4) ? "#9" : "b3",
            4 => "3",
            5 => "11",
            6 => held.Contains(7) ? "#11" : "b5",
            7 => "5",
            8 => held.Contains(10) || held.Contains(11) ? "b13" : "b6",
            9 => held.Contains(10) || held.Contains(11) ? "13" : "6",
            10 => "b7",
            _ => "7",
        };
    }
}
