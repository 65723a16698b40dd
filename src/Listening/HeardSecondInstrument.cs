using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>What plays or sings a line with the guitar.</summary>
public enum SecondInstrumentKind
{
    /// <summary>Nothing does: the guitar is alone.</summary>
    None,

    Harmonica,

    Voice,

    /// <summary>A whistle or flute.</summary>
    Whistle,

    /// <summary>A fiddle or another bowed string.</summary>
    Bowed,
}

/// <summary>The second instrument, if there is one: which kind, its pitch over time, its notes and, for a harmonica, which one and which holes.</summary>
public sealed record HeardSecondInstrument
{
    /// <summary>The guitar alone, as far as anyone knows: nothing was looked for.</summary>
    public static HeardSecondInstrument NotLookedFor { get; } = new() { Kind = new(new Candidate<SecondInstrumentKind>(SecondInstrumentKind.None, 0)), Contour = PitchContour.Silent };

    /// <summary>Which kind, "none" included; confidences add up to 1.</summary>
    public required Ranked<SecondInstrumentKind> Kind { get; init; }

    /// <summary>The line's pitch; silent throughout where there is no second instrument.</summary>
    public required PitchContour Contour { get; init; }

    /// <summary>By onset; several together are holes on one breath.</summary>
    public ImmutableArray<HeardLineNote> Notes { get; init; } = [];

    /// <summary>Which harmonica, if it is one; null where a harmonica isn't likely.</summary>
    public Ranked<HeardHarp>? Harp { get; init; }
}

/// <summary>A Richter harmonica's key and the position that the song's key asks of it (1–12).</summary>
public sealed record HeardHarp(PitchName Key, int Position);

/// <summary>A note of the second instrument.</summary>
/// <param name="Midi">Counted from the recording's own reference pitch.</param>
/// <param name="Off">How far the held pitch lies above that semitone.</param>
/// <param name="Holes">On the likeliest harmonica: hole, breath and bend, the likeliest first; null on another instrument or where that harmonica hasn't got the note.</param>
public sealed record HeardLineNote(int Midi, Cents Off, Seconds Onset, Seconds End, double Confidence, Ranked<HarpNote>? Holes = null);
