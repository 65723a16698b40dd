using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>One bar of every part. Starts and lengths are felt beats from the bar's own start.</summary>
public sealed record Bar
{
    /// <summary>1 for the song's first bar.</summary>
    public required int Number { get; init; }

    public required Meter Meter { get; init; }

    /// <summary>Chords in order, without gaps unless no chord is claimed. A chord held over the bar line is claimed again in the next bar.</summary>
    public ImmutableArray<Claim<ChordUse>> Chords { get; init; } = [];

    /// <summary>Where sung syllables start; the text may be "x" where only the rhythm is known.</summary>
    public ImmutableArray<Claim<string>> Sung { get; init; } = [];

    /// <summary>Notes of the tune, one after the other. Beside a sung line, a syllable may be sung on several.</summary>
    public ImmutableArray<Claim<TuneNote>> Tune { get; init; } = [];

    /// <summary>Notes on the harmonica; those that start together are sounded on one breath.</summary>
    public ImmutableArray<Claim<HarpNote>> Harp { get; init; } = [];

    /// <summary>Picked notes: a string (0 = lowest), a fret from the capo. In order of start, then from the low string.</summary>
    public ImmutableArray<Claim<PickedNote>> Picked { get; init; } = [];

    /// <summary>Strums: down or up strokes over the current shape.</summary>
    public ImmutableArray<Claim<Stroke>> Strums { get; init; } = [];

    public bool Equals(Bar? other) =>
        other is not null
        && Number == other.Number
        && Meter == other.Meter
        && Chords.AsSpan().SequenceEqual(other.Chords.AsSpan())
        && Sung.AsSpan().SequenceEqual(other.Sung.AsSpan())
        && Tune.AsSpan().SequenceEqual(other.Tune.AsSpan())
        && Harp.AsSpan().SequenceEqual(other.Harp.AsSpan())
        && Picked.AsSpan().SequenceEqual(other.Picked.AsSpan())
        && Strums.AsSpan().SequenceEqual(other.Strums.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Number, Meter, Chords.Length, Sung.Length, Tune.Length, Harp.Length, Picked.Length, Strums.Length);
}

/// <summary>
/// Something claimed to happen in a bar. A note or syllable may sound on past the bar's end, so its length may reach into later bars
/// (at most <see cref="LongestHold"/> of them, and never past its section); a chord's never does.
/// </summary>
public sealed record Claim<T>(Beats Start, Beats Length, T Value, Standing Standing)
{
    /// <summary>Bars over which a note that nothing ends is taken to ring on.</summary>
    public const int LongestHold = 16;
}

/// <summary>A chord in a bar and, when a shape of that name is given, the shape that sounds it.</summary>
public sealed record ChordUse(Chord Chord, string Name, Shape? Shape);

/// <summary>A strum's direction.</summary>
public enum Stroke
{
    Down,
    Up,
    Muted,
}
