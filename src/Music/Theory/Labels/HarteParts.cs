using System.Collections.Immutable;

namespace Harkbook.Music.Theory.Labels;

/// <summary>What a chord label says, part by part, before any of it is worked out.</summary>
/// <param name="Sound">Whether a chord is named, none sounds (N), or it is not known which (X).</param>
/// <param name="Root">The root; meaningless unless a chord is named.</param>
/// <param name="Shorthand">"min7"; "maj" for a bare root; empty where only degrees are listed.</param>
/// <param name="Added">Degrees listed without a star.</param>
/// <param name="Omitted">Degrees listed with a star.</param>
/// <param name="Bass">The bass as an interval above the root; a unison in root position.</param>
public sealed record HarteParts(
    HarteSound Sound, PitchName Root, string Shorthand, ImmutableArray<Interval> Added, ImmutableArray<Interval> Omitted, Interval Bass)
{
    public static HarteParts None { get; } = new(HarteSound.None, default, "", [], [], default);

    public static HarteParts Unknown { get; } = new(HarteSound.Unknown, default, "", [], [], default);

    /// <summary>The degrees above the root: those of the shorthand (only the root where there is none) and those added, less those omitted.</summary>
    public ChordQuality Quality => ChordQuality.Of(
        (Shorthand.Length == 0 ? [Interval.Unison] : HarteShorthand.Named(Shorthand).Quality.Intervals).Concat(Added).Except(Omitted));
}

/// <summary>What a label says about the sound.</summary>
public enum HarteSound
{
    /// <summary>A chord is named.</summary>
    Chord,

    /// <summary>"N": no chord sounds.</summary>
    None,

    /// <summary>"X": a chord that the label set can't name.</summary>
    Unknown,
}
