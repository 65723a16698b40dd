using System.Collections.Immutable;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Instruments;
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

    /// <summary>What plays a line with the guitar; None where the file says that nothing does.</summary>
    public SecondInstrumentKind? SecondInstrument { get; init; }

    /// <summary>The pitch of that line, moment by moment.</summary>
    public ImmutableArray<AnnotatedPitch> Melody { get; init; } = [];

    /// <summary>Notes of that line. Not among <see cref="Notes"/>.</summary>
    public ImmutableArray<AnnotatedLineNote> LineNotes { get; init; } = [];

    /// <summary>The key of the harmonica that plays them.</summary>
    public PitchName? HarpKey { get; init; }

    public IEnumerable<double> Downbeats => Beats.Where(b => b.PositionInBar == 1).Select(b => b.Time);
}

/// <summary>A beat in seconds; its place in the bar (1 = downbeat) where the file tells it.</summary>
public sealed record AnnotatedBeat(double Time, int? PositionInBar);

/// <summary>A labelled stretch, in seconds.</summary>
public sealed record AnnotatedSpan(double Start, double End, string Label);

/// <summary>A melody's pitch at a time in seconds; null where it is silent.</summary>
public sealed record AnnotatedPitch(double Time, double? Hertz);

/// <summary>A note of a second instrument and, on a harmonica, how it is played.</summary>
public sealed record AnnotatedLineNote(ScoredNote Note, HarpNote? Hole);
