using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Where a claim stands: a time in the recording and, for songs, bar and beat (both from 1).</summary>
public sealed record Place(Seconds Time, int? Bar = null, double? Beat = null)
{
    /// <summary>Where in a beat players count: on it, and at its quarters and thirds.</summary>
    private static readonly Beats[] Counts =
        [Beats.Zero, Beats.Fraction(1, 4), Beats.Fraction(1, 3), Beats.Fraction(1, 2), Beats.Fraction(2, 3), Beats.Fraction(3, 4), Beats.Whole(1)];

    /// <summary>Where something was heard: its own time, and the place nearest to it at which players count.</summary>
    public static Place Heard(Seconds time, SongClock clock)
    {
        var (bar, heard) = clock.PlaceOf(time);
        var whole = Math.Floor(heard);
        var (counted, beat) = clock.PlaceOf(clock.TimeOf(bar, Beats.Whole((int)whole) + Counts.MinBy(c => Math.Abs(heard - whole - c.Value))));
        return new(time, counted, beat + 1);
    }
}
