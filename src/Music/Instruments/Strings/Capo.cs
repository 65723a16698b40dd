using System.Collections.Immutable;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>
/// A capo: the fret that it stops, over all strings or, when partial, only some. Frets in shapes count from the capo
/// (fret 0 is the capoed string), as players write them; on strings that a partial capo leaves free they count from the nut.
/// No capo is fret 0, the default.
/// </summary>
public readonly record struct Capo
{
    private readonly ImmutableArray<int> onlyStrings;

    private Capo(int fret, ImmutableArray<int> strings)
    {
        Fret = fret;
        onlyStrings = strings;
    }

    /// <summary>0 (none) to 12.</summary>
    public int Fret { get; }

    /// <summary>Indices (0 = lowest) of the strings that a partial capo stops; empty when it stops all.</summary>
    public ImmutableArray<int> OnlyStrings => onlyStrings.IsDefault ? [] : onlyStrings;

    public bool IsPartial => OnlyStrings.Length > 0;

    public static Capo None => default;

    public static Capo At(int fret, params ImmutableArray<int> onlyStrings) =>
        fret is >= 0 and <= 12
            ? new(fret, [.. onlyStrings.Order()])
            : throw new ArgumentOutOfRangeException(nameof(fret), fret, "A capo sits at fret 0 (none) to 12.");

    /// <summary>Semitones by which the capo raises a string (index 0 = lowest).</summary>
    public int Raises(int stringIndex) => IsPartial && !OnlyStrings.Contains(stringIndex) ? 0 : Fret;

    /// <summary>
    /// A fret as diagrams and tab print it: as shapes count under a capo over all strings, which is the picture's nut; from the nut on every
    /// string under a partial one, since the free strings do.
    /// </summary>
    public int Printed(int stringIndex, int fret) => IsPartial ? fret + Raises(stringIndex) : fret;

    public bool Equals(Capo other) => Fret == other.Fret && OnlyStrings.AsSpan().SequenceEqual(other.OnlyStrings.AsSpan());

    public override int GetHashCode() => OnlyStrings.Aggregate(Fret, HashCode.Combine);

    /// <summary>"2", or "2 on strings 3, 4, 5" where it is partial; strings are numbered from the thin one.</summary>
    public string Describe(Tuning tuning) =>
        IsPartial ? $"{Fret} on strings {string.Join(", ", OnlyStrings.Reverse().Select(tuning.StringNumber))}" : $"{Fret}";

    public override string ToString() => IsPartial ? $"{Fret} on string indices {string.Join(' ', OnlyStrings)}" : $"{Fret}";
}
