using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>A scale as intervals above its first note, beside the <see cref="Mode"/>s that a key can stand in. Common practice.</summary>
public sealed record Scale
{
    private Scale(string name, string degrees)
    {
        Name = name;
        Intervals = ChordQuality.FromDegrees(degrees).Intervals;
    }

    public string Name { get; }

    /// <summary>Rising, the unison first; at most an octave.</summary>
    public ImmutableArray<Interval> Intervals { get; }

    public static Scale MajorPentatonic { get; } = new("major pentatonic", "1 2 3 5 6");
    public static Scale MinorPentatonic { get; } = new("minor pentatonic", "1 b3 4 5 b7");
    public static Scale Blues { get; } = new("blues", "1 b3 4 b5 5 b7");
    public static Scale MajorBlues { get; } = new("major blues", "1 2 b3 3 5 6");
    public static Scale HarmonicMinor { get; } = new("harmonic minor", "1 2 b3 4 5 b6 7");

    /// <summary>The rising form.</summary>
    public static Scale MelodicMinor { get; } = new("melodic minor", "1 2 b3 4 5 6 7");

    public static Scale WholeTone { get; } = new("whole tone", "1 2 3 #4 #5 b7");

    public static ImmutableArray<Scale> All { get; } =
        [.. Mode.All.Select(Of), HarmonicMinor, MelodicMinor, MajorPentatonic, MinorPentatonic, Blues, MajorBlues, WholeTone];

    public static Scale Of(Mode mode) => new(mode.Name, string.Join(' ', mode.Intervals.Select(i => i.DegreeName)));

    /// <summary>The notes from a tonic up.</summary>
    public ImmutableArray<PitchName> On(PitchName tonic) => [.. Intervals.Select(i => tonic + i)];

    public bool Equals(Scale? other) => other is not null && Name == other.Name;

    public override int GetHashCode() => Name.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Name;
}
