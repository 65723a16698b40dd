using System.Collections.Immutable;
using System.Text.Json.Serialization;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Listening.Reading.Harmony;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>Everything estimated from one recording: the likeliest reading of its evidence and of what a person decided.</summary>
public sealed record Hearing
{
    public required Recording Recording { get; init; }

    /// <summary>What A4 is.</summary>
    public required Distribution<Hertz> ReferencePitch { get; init; }

    /// <summary>Felt beats a minute.</summary>
    public required Distribution<double> Tempo { get; init; }

    public required Distribution<Meter> Meter { get; init; }

    /// <summary>Every felt beat, rising.</summary>
    public required ImmutableArray<HeardBeat> Beats { get; init; }

    public required ImmutableArray<HeardKey> Keys { get; init; }

    /// <summary>The song's key: the one that is heard longest, surer stretches counting more. Null where none was looked for.</summary>
    [JsonIgnore]
    public Distribution<Key>? MainKey => Listening.MainKey.Of(Keys);

    /// <summary>As keys and chords were read together; null in a hearing that comes from a store.</summary>
    [JsonIgnore]
    internal ReadHarmony? Harmony { get; init; }

    public required ImmutableArray<HeardNote> Notes { get; init; }

    /// <summary>What all of this was read from: for weighing claims, and for reading again.</summary>
    [JsonIgnore]
    public SoundEvidence Evidence { get; init; } = SoundEvidence.None;

    /// <summary>What a person had decided before it was read.</summary>
    [JsonIgnore]
    public Claims Claims { get; init; } = Claims.None;

    /// <summary>Chord spans, without gaps from the first beat to the last; <see cref="Chord.None"/> where none sounds.</summary>
    public required ImmutableArray<HeardChord> Chords { get; init; }

    public required ImmutableArray<HeardSection> Sections { get; init; }

    public required Distribution<HeardTuning> Tuning { get; init; }

    /// <summary>What plays or sings lines with the guitar.</summary>
    public HeardLines Lines { get; init; } = HeardLines.NotLookedFor;
}

/// <summary>A felt beat. Position 1 is a downbeat.</summary>
public sealed record HeardBeat(Seconds Time, int PositionInBar, double Confidence);

/// <summary>A stretch in one key.</summary>
public sealed record HeardKey(Seconds Start, Seconds End, Distribution<Key> Key);

/// <summary>A note: MIDI number relative to the recording's own reference pitch, onset, end, confidence and strength (0–1).</summary>
/// <param name="Place">Where on the guitar it was probably played, in the likeliest tuning; null where no string takes it.</param>
public sealed record HeardNote(int Midi, Seconds Onset, Seconds End, double Confidence, double Strength, HeardPlace? Place = null);

/// <summary>A place on the neck: string (0 = the low side), fret as shapes count it, and how sure that is if the tuning is right (0–1).</summary>
public sealed record HeardPlace(int StringIndex, int Fret, double Confidence);

/// <summary>A chord over a span.</summary>
public sealed record HeardChord(Seconds Start, Seconds End, Distribution<Chord> Chord);

/// <summary>A stretch of the form; sections that repeat share a label (A, B …).</summary>
public sealed record HeardSection(Seconds Start, Seconds End, string Label, double Confidence);

/// <summary>A guitar tuning and capo that could have made the notes.</summary>
public sealed record HeardTuning(Tuning Tuning, Capo Capo, string? Name);
