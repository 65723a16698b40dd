using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>A seven-note mode of the major scale, or another scale that a key can stand in.</summary>
public sealed record Mode
{
    private Mode(string name, bool isMinor, params ReadOnlySpan<(int Degree, int Alteration)> degrees)
    {
        Name = name;
        IsMinor = isMinor;
        Intervals = [.. degrees.ToArray().Select(d => Interval.FromDegree(d.Degree, d.Alteration))];
    }

    /// <summary>"major", "minor", "dorian", "mixolydian" …</summary>
    public string Name { get; }

    /// <summary>Whether the third above the tonic is minor.</summary>
    public bool IsMinor { get; }

    /// <summary>The scale's intervals above the tonic, rising, the unison first.</summary>
    public ImmutableArray<Interval> Intervals { get; }

    public static Mode Major { get; } = new("major", false, (1, 0), (2, 0), (3, 0), (4, 0), (5, 0), (6, 0), (7, 0));
    public static Mode Minor { get; } = new("minor", true, (1, 0), (2, 0), (3, -1), (4, 0), (5, 0), (6, -1), (7, -1));
    public static Mode Dorian { get; } = new("dorian", true, (1, 0), (2, 0), (3, -1), (4, 0), (5, 0), (6, 0), (7, -1));
    public static Mode Phrygian { get; } = new("phrygian", true, (1, 0), (2, -1), (3, -1), (4, 0), (5, 0), (6, -1), (7, -1));
    public static Mode Lydian { get; } = new("lydian", false, (1, 0), (2, 0), (3, 0), (4, 1), (5, 0), (6, 0), (7, 0));
    public static Mode Mixolydian { get; } = new("mixolydian", false, (1, 0), (2, 0), (3, 0), (4, 0), (5, 0), (6, 0), (7, -1));
    public static Mode Locrian { get; } = new("locrian", true, (1, 0), (2, -1), (3, -1), (4, 0), (5, -1), (6, -1), (7, -1));

    public static ImmutableArray<Mode> All { get; } = [Major, Minor, Dorian, Phrygian, Lydian, Mixolydian, Locrian];

    public bool Equals(Mode? other) => other is not null && Name == other.Name;

    public override int GetHashCode() => Name.GetHashCode(StringComparison.Ordinal);

    public override string ToString() => Name;
}
