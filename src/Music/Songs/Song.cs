using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// The one document that people edit: every claim about a recording that a lesson is published from.
/// Read from and written to plain text by <c>SongText</c>.
/// </summary>
public sealed record Song
{
    public required string Title { get; init; }

    /// <summary>Who plays on the record; null where unknown.</summary>
    public string? Player { get; init; }

    public RecordingReference? Recording { get; init; }

    /// <summary>What A4 is in the recording.</summary>
    public required Fact<Hertz> ReferencePitch { get; init; }

    public required Fact<Tuning> Tuning { get; init; }

    public required Fact<Capo> Capo { get; init; }

    public required Fact<Meter> Meter { get; init; }

    /// <summary>Felt beats a minute, where no anchors say better.</summary>
    public required Fact<double> Tempo { get; init; }

    public required Fact<Key> Key { get; init; }

    /// <summary>A second instrument, today a harmonica; null where there is none.</summary>
    public Fact<HarpReference>? Harp { get; init; }

    public ImmutableArray<NamedShape> Shapes { get; init; } = [];

    /// <summary>Sections in playing order; bars are numbered through the song from 1.</summary>
    public required ImmutableArray<Section> Sections { get; init; }

    public IEnumerable<Bar> Bars => Sections.SelectMany(s => s.Bars);
}

/// <summary>The recording that a song's claims are about. Path is relative to the song's folder.</summary>
public sealed record RecordingReference(string Path, string? ContentHash, Seconds? Length);

/// <summary>Which harmonica: its key and its layout's name in the data ("richter").</summary>
public sealed record HarpReference(PitchName Key, string Layout);

/// <summary>A shape under the name that bars use: a chord symbol, with a label behind "@" to tell two shapes of one chord apart ("D@high").</summary>
public sealed record NamedShape(string Name, Shape Shape, Standing Standing)
{
    /// <summary>The chord symbol: the name without its label.</summary>
    public string Symbol => Name.Split('@')[0];
}

/// <summary>A stretch of the song's form.</summary>
/// <param name="Anchors">Bars of this section (1 = its first) tied to times in the recording, rising.</param>
public sealed record Section(string Name, ImmutableArray<Anchor> Anchors, ImmutableArray<Bar> Bars);

/// <summary>The start of a bar of a section (1 = the first; one past the last marks its end) at a time in the recording.</summary>
public sealed record Anchor(int Bar, Seconds At);

/// <summary>One bar of every part. Starts and lengths are felt beats from the bar's own start.</summary>
public sealed record Bar
{
    /// <summary>1 for the song's first bar.</summary>
    public required int Number { get; init; }

    public required Meter Meter { get; init; }

    /// <summary>Chords in order, without gaps unless no chord is claimed.</summary>
    public ImmutableArray<Claim<ChordUse>> Chords { get; init; } = [];

    /// <summary>Where sung syllables start; the text may be "x" where only the rhythm is known.</summary>
    public ImmutableArray<Claim<string>> Sung { get; init; } = [];

    /// <summary>Notes on the harmonica; those that start together are sounded on one breath.</summary>
    public ImmutableArray<Claim<HarpNote>> Harp { get; init; } = [];

    /// <summary>Picked notes: a string (0 = lowest), a fret from the capo.</summary>
    public ImmutableArray<Claim<PickedNote>> Picked { get; init; } = [];

    /// <summary>Strums: down or up strokes over the current shape.</summary>
    public ImmutableArray<Claim<Stroke>> Strums { get; init; } = [];
}

/// <summary>Something claimed to happen in a bar.</summary>
public sealed record Claim<T>(Beats Start, Beats Length, T Value, Standing Standing);

/// <summary>A chord in a bar and, when a shape of that name is given, the shape that sounds it.</summary>
public sealed record ChordUse(Chord Chord, string Name, Shape? Shape);

/// <summary>A note on one string.</summary>
public sealed record PickedNote(int StringIndex, int Fret, Attack Attack = Attack.Picked);

/// <summary>How a note on a string starts.</summary>
public enum Attack
{
    Picked,
    HammeredOn,
    PulledOff,
    Slid,
}

/// <summary>A strum's direction.</summary>
public enum Stroke
{
    Down,
    Up,
    Muted,
}
