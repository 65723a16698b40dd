using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Interchange;

/// <summary>
/// What somebody else's file says of a recording: the truth that an evaluation scores against, or claims to be checked.
/// Whatever the file doesn't say is empty or null.
/// </summary>
public sealed record Annotation
{
    /// <summary>The recording's length in seconds.</summary>
    public double? Duration { get; init; }

    public ImmutableArray<AnnotatedBeat> Beats { get; init; } = [];

    /// <summary>Chord labels in Harte syntax.</summary>
    public ImmutableArray<AnnotatedSpan> Chords { get; init; } = [];

    /// <summary>Keys as "D major".</summary>
    public ImmutableArray<AnnotatedSpan> Keys { get; init; } = [];

    /// <summary>Pitches about A440.</summary>
    public ImmutableArray<ScoredNote> Notes { get; init; } = [];

    public ImmutableArray<AnnotatedSpan> Sections { get; init; } = [];

    /// <summary>Felt beats a minute.</summary>
    public double? Tempo { get; init; }

    /// <summary>What A4 is, in Hz.</summary>
    public double? ReferenceHertz { get; init; }

    public Tuning? Tuning { get; init; }

    public int? Capo { get; init; }

    /// <summary>What plays or sings lines with the guitar; empty where the file says that nothing does, null where it doesn't say.</summary>
    public ImmutableArray<AnnotatedLine>? Lines { get; init; }

    public IEnumerable<double> Downbeats => Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time);
}

/// <summary>A beat in seconds; its place in the bar (1 = downbeat) where the file tells it.</summary>
public sealed record AnnotatedBeat(double Time, int? PositionInBar);

/// <summary>A labelled stretch, in seconds.</summary>
public sealed record AnnotatedSpan(double Start, double End, string Label);

/// <summary>A line over the guitar.</summary>
/// <param name="Kind">What plays it; null where the file doesn't say.</param>
/// <param name="Melody">Its pitch, moment by moment.</param>
/// <param name="Notes">Not among the guitar's.</param>
/// <param name="HarpKey">The key of the harmonica that plays it.</param>
public sealed record AnnotatedLine(LineKind? Kind, ImmutableArray<AnnotatedPitch> Melody, ImmutableArray<AnnotatedLineNote> Notes, PitchName? HarpKey = null);

/// <summary>A melody's pitch at a time in seconds; null where it is silent.</summary>
public sealed record AnnotatedPitch(double Time, double? Hertz);

/// <summary>A note of a second instrument and, on a harmonica, how it is played.</summary>
public sealed record AnnotatedLineNote(ScoredNote Note, HarpNote? Hole);
