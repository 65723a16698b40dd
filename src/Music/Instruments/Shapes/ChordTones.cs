using System.Collections.Immutable;
using System.Numerics;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Shapes;

/// <summary>A chord as a search needs it: which pitch classes may sound, which must, and what each one's absence or doubling costs.</summary>
internal sealed class ChordTones
{
    private readonly double[] missing = new double[12];
    private readonly double[] doubled = new double[12];
    private readonly bool[] isThird = new bool[12];

    public ChordTones(Chord chord, ImmutableArray<int>? mayOmit)
    {
        Bass = chord.Bass.PitchClass;
        Root = chord.Root.PitchClass;
        var omit = mayOmit ?? UsualOmissions(chord.Quality);
        foreach (var interval in chord.Quality.Intervals)
            Take(interval, chord, omit);
        ForeignBass = (Allowed & (1 << Bass)) == 0;
        Allowed |= 1 << Bass;
        Required |= 1 << Bass;
    }

    public int Bass { get; }

    public int Root { get; }

    /// <summary>Whether the bass is no note of the chord above it; it then belongs in the bass only.</summary>
    public bool ForeignBass { get; }

    /// <summary>Bit n stands for pitch class n.</summary>
    public int Allowed { get; private set; }

    public int Required { get; private set; }

    public int Count => BitOperations.PopCount((uint)Allowed);

    public bool Allows(int midi) => (Allowed & (1 << (midi % 12))) != 0;

    public bool IsThird(int pitchClass) => isThird[pitchClass];

    public double MissingCost(int sounding)
    {
        var cost = 0.0;
        for (var rest = Allowed & ~sounding; rest != 0; rest &= rest - 1)
            cost += missing[BitOperations.TrailingZeroCount(rest)];
        return cost;
    }

    public double DoubledCost(int pitchClass, int times) => doubled[pitchClass] * Math.Max(0, times - 1);

    private void Take(Interval interval, Chord chord, ImmutableArray<int> omit)
    {
        var pitchClass = (chord.Root + interval).PitchClass;
        var (degree, alteration) = interval.Degree;
        var size = chord.Quality.Intervals.Length;
        Allowed |= 1 << pitchClass;
        if (!omit.Contains(degree) || (degree == 5 && alteration != 0))
            Required |= 1 << pitchClass;
        missing[pitchClass] = degree switch { 5 => size <= 3 ? 1.6 : 0.4, 1 => 1.5, _ => 0.9 };
        doubled[pitchClass] = degree switch { 1 => 0.05, 5 => 0.08, 3 => 0.14, _ => 0.2 };
        isThird[pitchClass] = degree == 3;
    }

    private static ImmutableArray<int> UsualOmissions(ChordQuality quality)
    {
        var degrees = quality.Intervals.Select(i => i.Degree.Degree).ToArray();
        if (degrees.Length < 3)
            return [];
        var omit = new List<int> { 5 };
        if (degrees.Length >= 6)
            omit.Add(9);
        if (degrees.Contains(13) && degrees.Contains(11))
            omit.Add(11);
        if (degrees.Max() == 11 && quality.Intervals.Any(i => i.Degree == (11, 0)))
            omit.Add(3);
        return [.. omit];
    }
}
