using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>Which degree a note is in a key by what it does there, whatever it was called.</summary>
internal static class FunctionalDegree
{
    /// <summary>The degree of a chord's root: a diminished chord outside the scale stands on a raised degree, which it leads up from; any other on the usual
    /// one.</summary>
    public static Interval Of(Chord chord, Key key)
    {
        var semitones = Above(chord.Root, key);
        var (fifth, third) = (chord.Quality.PitchClasses.Contains(7), chord.Quality.PitchClasses.Contains(4));
        var isDiminished = !fifth && !third && chord.Quality.PitchClasses.Contains(6);
        if (semitones == 6 && third && !InScale(6, key))
            return Interval.FromDegree(5, -1);
        return isDiminished && semitones is (1 or 3 or 8) && !InScale(semitones, key)
            ? Interval.FromDegree(semitones switch { 1 => 1, 3 => 2, _ => 5 }, 1)
            : Usual(semitones, key);
    }

    /// <summary>The degree of the bass: a note of the chord as the chord names it, else the usual one.</summary>
    public static Interval OfBass(Chord chord, Interval root, Key key)
    {
        if (chord.Bass == chord.Root)
            return root;
        var above = Floor.Mod(chord.Bass.PitchClass - chord.Root.PitchClass, 12);
        foreach (var interval in chord.Quality.Intervals.Where(i => Floor.Mod(i.Semitones, 12) == above))
            return root + interval;
        return Usual(Above(chord.Bass, key), key);
    }

    /// <summary>As the chord is named with its dominant seventh spelled as the augmented sixth that it is.</summary>
    public static ChordQuality QualityOf(AugmentedSixth sixth) => ChordQuality.FromDegrees(sixth switch
    {
        AugmentedSixth.Italian => "1 3 #6",
        AugmentedSixth.French => "1 3 #4 #6",
        _ => "1 3 5 #6",
    });

    public static int Above(PitchName note, Key key) => Floor.Mod(note.PitchClass - key.Tonic.PitchClass, 12);

    private static bool InScale(int semitones, Key key) => key.Mode.Intervals.Any(i => i.Semitones == semitones);

    private static Interval Usual(int semitones, Key key)
    {
        foreach (var interval in key.Mode.Intervals.Where(i => i.Semitones == semitones))
            return interval;
        return semitones switch
        {
            0 => Interval.Unison,
            1 => Interval.FromDegree(2, -1),
            2 => Interval.FromDegree(2, 0),
            3 => Interval.FromDegree(3, -1),
            4 => Interval.FromDegree(3, 0),
            5 => Interval.FromDegree(4, 0),
            6 => Interval.FromDegree(4, 1),
            7 => Interval.FromDegree(5, 0),
            8 => Interval.FromDegree(6, -1),
            9 => Interval.FromDegree(6, 0),
            10 => Interval.FromDegree(7, -1),
            _ => Interval.FromDegree(7, 0),
        };
    }
}
