using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Labels;
using Harkbook.Units;

namespace Harkbook.Demo;

/// <summary>What was really played, at the times at which the recording has it; listening never sees it.</summary>
public sealed record DemoTruth
{
    public required Hertz ReferencePitch { get; init; }

    public required Key Key { get; init; }

    public required Tuning Tuning { get; init; }

    public required Capo Capo { get; init; }

    public required Meter Meter { get; init; }

    /// <summary>Every felt beat of every bar.</summary>
    public required ImmutableArray<TrueBeat> Beats { get; init; }

    /// <summary>Chord spans without gaps from the first beat to the end; equal neighbours joined.</summary>
    public required ImmutableArray<TrueChord> Chords { get; init; }

    /// <summary>Every note of every part, by onset.</summary>
    public required ImmutableArray<TrueNote> Notes { get; init; }

    public required ImmutableArray<TrueSection> Sections { get; init; }

    /// <summary>The key of the harmonica; null where none plays.</summary>
    public PitchName? HarpKey { get; init; }
}

/// <summary>A felt beat.</summary>
/// <param name="PositionInBar">1 for the first of a bar.</param>
public readonly record struct TrueBeat(Seconds Time, int PositionInBar);

/// <summary>A chord over a span.</summary>
public sealed record TrueChord(Seconds Start, Seconds End, Chord Chord)
{
    /// <summary>In the syntax of Harte et al., ISMIR 2005.</summary>
    public string Label => HarteLabel.Write(Chord);
}

/// <summary>A section of the form under its own name.</summary>
public sealed record TrueSection(Seconds Start, Seconds End, string Name);

/// <summary>Who plays a note.</summary>
public enum DemoPart
{
    Guitar,
    Harp,
    Voice,
}

/// <summary>A played note.</summary>
/// <param name="StringIndex">0 is the lowest string; null for the other parts.</param>
/// <param name="Hole">On a harmonica; null for the other parts.</param>
public sealed record TrueNote(DemoPart Part, int? StringIndex, int Midi, Seconds Onset, Seconds End, HarpNote? Hole = null);

/// <summary>A made-up recording with the truth about it.</summary>
public sealed record DemoTake(Audio.Signals.Signal Sound, DemoTruth Truth);
