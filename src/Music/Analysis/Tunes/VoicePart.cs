using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Tunes;

/// <summary>A part of a choir and what it is written for, by data/voices.tsv.</summary>
public sealed record VoicePart(string Name, Pitch Lowest, Pitch Highest)
{
    /// <summary>The highest first.</summary>
    public static ImmutableArray<VoicePart> All { get; } =
        [.. PublishedTable.Rows("voices.tsv").Select(cells => new VoicePart(cells[0], Pitch.Parse(cells[1]), Pitch.Parse(cells[2])))];

    /// <summary>Whether both ends of a tune lie in it; MIDI numbers, with fractions where A4 isn't 440 Hz.</summary>
    public bool Holds(double lowest, double highest) => Math.Round(lowest) >= Lowest.Midi && Math.Round(highest) <= Highest.Midi;
}
