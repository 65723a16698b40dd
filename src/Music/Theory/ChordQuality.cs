using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>
/// What a chord holds above its root: a set of spelled intervals, the unison among them unless the root is left out.
/// Compared by its intervals.
/// </summary>
public sealed record ChordQuality
{
    private ChordQuality(ImmutableArray<Interval> intervals) => Intervals = intervals;

    /// <summary>Intervals above the root in rising order of degree; empty for "no chord".</summary>
    public ImmutableArray<Interval> Intervals { get; }

    /// <summary>From intervals of degrees 1 to 15; order and repeats do not matter.</summary>
    public static ChordQuality Of(params IEnumerable<Interval> intervals)
    {
        ImmutableArray<Interval> sorted = [.. intervals.Distinct().OrderBy(i => i.Steps).ThenBy(i => i.Semitones)];
        return sorted.IsEmpty || (sorted[0].Steps >= 0 && sorted[^1].Steps <= 14)
            ? new(sorted)
            : throw new ArgumentOutOfRangeException(nameof(intervals), string.Join(' ', sorted),
                "A chord's intervals rise above its root by degrees 1 to 15; invert a falling one.");
    }

    /// <summary>From degrees with accidentals against the major scale: "1 b3 5 b7".</summary>
    public static ChordQuality FromDegrees(string degrees) =>
        Of(degrees.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Interval.ParseDegree));

    /// <summary>Pitch classes above the root, 0–11.</summary>
    public ImmutableArray<int> PitchClasses => [.. Intervals.Select(i => Floor.Mod(i.Semitones, 12)).Distinct().Order()];

    public static ChordQuality None { get; } = new([]);
    public static ChordQuality Major { get; } = FromDegrees("1 3 5");
    public static ChordQuality Minor { get; } = FromDegrees("1 b3 5");
    public static ChordQuality Diminished { get; } = FromDegrees("1 b3 b5");
    public static ChordQuality Augmented { get; } = FromDegrees("1 3 #5");
    public static ChordQuality SuspendedSecond { get; } = FromDegrees("1 2 5");
    public static ChordQuality SuspendedFourth { get; } = FromDegrees("1 4 5");
    public static ChordQuality Power { get; } = FromDegrees("1 5");
    public static ChordQuality Dominant7 { get; } = FromDegrees("1 3 5 b7");
    public static ChordQuality Major7 { get; } = FromDegrees("1 3 5 7");
    public static ChordQuality Minor7 { get; } = FromDegrees("1 b3 5 b7");
    public static ChordQuality MinorMajor7 { get; } = FromDegrees("1 b3 5 7");
    public static ChordQuality Diminished7 { get; } = FromDegrees("1 b3 b5 bb7");
    public static ChordQuality HalfDiminished7 { get; } = FromDegrees("1 b3 b5 b7");
    public static ChordQuality Major6 { get; } = FromDegrees("1 3 5 6");
    public static ChordQuality Minor6 { get; } = FromDegrees("1 b3 5 6");
    public static ChordQuality Dominant7Suspended4 { get; } = FromDegrees("1 4 5 b7");
    public static ChordQuality AddedNinth { get; } = FromDegrees("1 3 5 9");
    public static ChordQuality Dominant9 { get; } = FromDegrees("1 3 5 b7 9");

    /// <summary>The degrees, as <see cref="FromDegrees"/> reads them.</summary>
    public override string ToString() => string.Join(' ', Intervals.Select(i => i.DegreeName));

    public bool Equals(ChordQuality? other) => other is not null && Intervals.AsSpan().SequenceEqual(other.Intervals.AsSpan());

    public override int GetHashCode()
    {
        var hash = new HashCode();
        foreach (var interval in Intervals)
            hash.Add(interval);
        return hash.ToHashCode();
    }

}
