using System.Collections.Immutable;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>A second instrument: which kind, its pitch over time, its notes and, for a harmonica, which one and which holes.</summary>
public sealed record HeardLine
{
    /// <summary>Which kind it is; what the confidences lack of 1 is that there is no such line.</summary>
    public required Distribution<LineKind> Kind { get; init; }

    /// <summary>The line's pitch.</summary>
    public required PitchContour Contour { get; init; }

    /// <summary>By onset; several together are holes on one breath.</summary>
    public ImmutableArray<HeardLineNote> Notes { get; init; } = [];

    /// <summary>Which harmonica, if it is one; null on another instrument.</summary>
    public Distribution<HeardHarp>? Harp { get; init; }

    /// <summary>How much of the time between two moments the line's notes fill (0–1), both in seconds; 0 where there is no time between them.</summary>
    public double ShareOf(double start, double end) => end <= start ? 0
        : Math.Min(1, Notes.Sum(n => Math.Max(0, Math.Min(end, n.End.Value) - Math.Max(start, n.Onset.Value))) / (end - start));
}

/// <summary>A Richter harmonica's key and the position that the song's key asks of it (1–12).</summary>
public sealed record HeardHarp(PitchName Key, int Position);

/// <summary>A note of a line.</summary>
/// <param name="Midi">Counted from the recording's own reference pitch.</param>
/// <param name="Off">How far the held pitch lies above that semitone.</param>
/// <param name="Holes">On the likeliest harmonica: hole, breath and bend, the likeliest first; null on another instrument or where that harmonica hasn't got
/// the note.</param>
public sealed record HeardLineNote(int Midi, Cents Off, Seconds Onset, Seconds End, double Confidence, Distribution<HarpNote>? Holes = null);
