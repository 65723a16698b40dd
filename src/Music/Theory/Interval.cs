namespace Harkbook.Music.Theory;

/// <summary>
/// A spelled interval as fifths and octaves: a perfect fifth is (1, 0), a major second (2, −1), a minor third (−3, 2).
/// Upward intervals have <see cref="Semitones"/> ≥ 0.
/// </summary>
public readonly partial record struct Interval
{
    private Interval(int fifths, int octaves)
    {
        Fifths = fifths;
        Octaves = octaves;
    }

    public int Fifths { get; }

    public int Octaves { get; }

    public int Semitones => 7 * Fifths + 12 * Octaves;

    /// <summary>Diatonic steps: 0 for a unison, 2 for any third, 7 for an octave.</summary>
    public int Steps => 4 * Fifths + 7 * Octaves;

    public static Interval Of(int fifths, int octaves) => new(fifths, octaves);

    /// <summary>
    /// The interval above a root of a scale degree (1–15) with its accidental against the major scale:
    /// (3, −1) is a minor third, (9, 0) a major ninth, (7, −1) a minor seventh.
    /// </summary>
    public static Interval FromDegree(int degree, int alteration)
    {
        if (degree is < 1 or > 15)
            throw new ArgumentOutOfRangeException(nameof(degree), degree, "Degrees run from 1 to 15.");
        ReadOnlySpan<int> fifthsOfDegree = [0, 2, 4, -1, 1, 3, 5];
        ReadOnlySpan<int> semitonesOfDegree = [0, 2, 4, 5, 7, 9, 11];
        var (octave, step) = ((degree - 1) / 7, (degree - 1) % 7);
        var fifths = fifthsOfDegree[step] + 7 * alteration;
        var semitones = semitonesOfDegree[step] + alteration + 12 * octave;
        return new(fifths, (semitones - 7 * fifths) / 12);
    }

    /// <summary>The degree (1 upward) and its accidental against the major scale, for an interval that rises or stays.</summary>
    public (int Degree, int Alteration) Degree
    {
        get
        {
            var degree = Steps + 1;
            if (degree < 1)
                throw new InvalidOperationException($"A falling interval ({Steps} steps) has no degree; invert it first.");
            return (degree, Floor.Div(Fifths + 1, 7));
        }
    }

    public static Interval operator +(Interval a, Interval b) => new(a.Fifths + b.Fifths, a.Octaves + b.Octaves);

    public static Interval operator -(Interval a, Interval b) => new(a.Fifths - b.Fifths, a.Octaves - b.Octaves);

    public static Interval operator -(Interval a) => new(-a.Fifths, -a.Octaves);

    /// <summary>The interval from one name up to the next of another: less than an octave (an augmented seventh reaches it).</summary>
    public static Interval Between(PitchName from, PitchName to)
    {
        var fifths = to.Fifths - from.Fifths;
        return new(fifths, -Floor.Div(4 * fifths, 7));
    }

    public static Interval Between(Pitch from, Pitch to)
    {
        var fifths = to.Name.Fifths - from.Name.Fifths;
        return new(fifths, (to.Midi - from.Midi - 7 * fifths) / 12);
    }
}
