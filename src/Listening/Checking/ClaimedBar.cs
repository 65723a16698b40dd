using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>A bar line that is claimed, and how many felt beats its bar holds; null where that isn't told.</summary>
internal sealed record ClaimedBar(Seconds Start, double? Beats, Place Where, string Claim)
{
    public static ImmutableArray<ClaimedBar> Of(Song song, SongClock clock) =>
    [
        .. song.Bars.Select(b => new ClaimedBar(clock.TimeOf(b.Number), b.Meter.BarLength.Value, new(clock.TimeOf(b.Number), b.Number, 1),
            $"bar {b.Number} starts here")),
    ];

    /// <summary>Every felt beat of a song, as if it had been heard for certain.</summary>
    public static ImmutableArray<HeardBeat> BeatsOf(Song song, SongClock clock) =>
    [
        .. from bar in song.Bars
           from beat in Enumerable.Range(0, bar.Meter.BeatsPerBar)
           let time = clock.TimeOf(bar.Number, Units.Beats.Whole(beat))
           where time.Value >= 0
           select new HeardBeat(time, beat + 1, 1),
    ];
}
