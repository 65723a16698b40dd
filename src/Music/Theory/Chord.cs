using System.Collections.Immutable;

namespace Harkbook.Music.Theory;

/// <summary>A chord as a claim: root, quality and bass, all spelled; or <see cref="None"/>, where no chord sounds.</summary>
public sealed record Chord
{
    private Chord(PitchName root, ChordQuality quality, PitchName bass)
    {
        Root = root;
        Quality = quality;
        Bass = bass;
    }

    /// <summary>No chord sounds. Its root and bass mean nothing; ask <see cref="IsNone"/> first.</summary>
    public static Chord None { get; } = new(default, ChordQuality.None, default);

    public PitchName Root { get; }

    public ChordQuality Quality { get; }

    /// <summary>The lowest note; equal to the root when the chord stands in root position.</summary>
    public PitchName Bass { get; }

    public bool IsNone => Quality.Intervals.IsEmpty;

    public static Chord Of(PitchName root, ChordQuality quality) => Of(root, quality, root);

    public static Chord Of(PitchName root, ChordQuality quality, PitchName bass) =>
        quality.Intervals.IsEmpty ? None : new(root, quality, bass);

    /// <summary>The chord's notes from the root up, spelled; a bass foreign to the chord is not among them.</summary>
    public ImmutableArray<PitchName> Notes => IsNone ? [] : [.. Quality.Intervals.Select(i => Root + i).Distinct()];

    /// <summary>Pitch classes that sound, bass included, 0–11.</summary>
    public ImmutableArray<int> PitchClasses => IsNone ? [] : [.. Notes.Append(Bass).Select(n => n.PitchClass).Distinct().Order()];

    public Chord Transposed(Interval by) => IsNone ? this : new(Root + by, Quality, Bass + by);

    public override string ToString() => ChordSymbolWriter.Write(this);
}
