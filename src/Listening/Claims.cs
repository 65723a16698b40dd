using System.Collections.Immutable;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>
/// What a person has decided of a recording. A reading holds to every claim, and reads all that hangs on it again. Nothing here is a guess:
/// what isn't claimed is left to the evidence.
/// </summary>
public sealed record Claims
{
    /// <summary>Nothing is decided.</summary>
    public static Claims None { get; } = new();

    /// <summary>What A4 is. The evidence of notes is heard about it.</summary>
    public Hertz? ReferencePitch { get; init; }

    public Tuning? Tuning { get; init; }

    public Capo? Capo { get; init; }

    /// <summary>The furthest that the player's index and little finger reach apart (<see cref="Music.Instruments.Hands.Hand.LongestReach"/>).</summary>
    public Length? Reach { get; init; }

    /// <summary>The meter of most bars.</summary>
    public Meter? Meter { get; init; }

    /// <summary>The felt beats a minute that come into question.</summary>
    public TempoRange? Tempo { get; init; }

    /// <summary>Beats that a person put down: taps and the anchors of a song file. Any order.</summary>
    public ImmutableArray<BeatClaim> Beats { get; init; } = [];

    /// <summary>Any order; they don't overlap.</summary>
    public ImmutableArray<KeyClaim> Keys { get; init; } = [];

    /// <summary>Any order; they don't overlap.</summary>
    public ImmutableArray<ChordClaim> Chords { get; init; } = [];

    /// <summary>Where sections start. Any order.</summary>
    public ImmutableArray<Seconds> Borders { get; init; } = [];

    /// <summary>The key of the harmonica, which is then there.</summary>
    public PitchName? HarpKey { get; init; }

    /// <summary>Kinds of second instruments that aren't there.</summary>
    public ImmutableArray<LineKind> Absent { get; init; } = [];
}

/// <summary>A range of tempi in felt beats a minute, both ends in it.</summary>
public sealed record TempoRange(double Slowest, double Fastest)
{
    /// <summary>Within 8% of a tempo that was told: as a person taps it.</summary>
    public static TempoRange About(double tempo) => new(tempo / 1.08, tempo * 1.08);

    public bool Holds(double tempo) => tempo >= Slowest && tempo <= Fastest;
}

/// <summary>A beat that a person put down.</summary>
/// <param name="PositionInBar">1 for a downbeat; null where the person didn't say.</param>
public sealed record BeatClaim(Seconds Time, int? PositionInBar = null);

/// <summary>A key that a person decided over a stretch.</summary>
public sealed record KeyClaim(Seconds Start, Seconds End, Key Key);

/// <summary>A chord that a person decided over a stretch, and the shape where that is decided too.</summary>
public sealed record ChordClaim(Seconds Start, Seconds End, Chord Chord, Shape? Shape = null);
