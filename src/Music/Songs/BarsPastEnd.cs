using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>Bars, numbered through the song, that would start after the recording has ended.</summary>
public sealed record BarsPastEnd(int First, int Last, Seconds End)
{
    /// <summary>Null where every bar starts in the recording.</summary>
    public static BarsPastEnd? Of(Song song, Seconds end)
    {
        var (clock, last) = (new SongClock(song), song.Bars.Count());
        var first = Enumerable.Range(1, last).FirstOrDefault(bar => clock.TimeOf(bar) >= end);
        return first == 0 ? null : new(first, last, end);
    }

    public override string ToString() =>
        $"{(First == Last ? $"Bar {First} lies" : $"Bars {First} to {Last} lie")} after the recording's end ({TimeText.Write(End)}).";

    public static string WhatToDo => "Check the anchors before that, the tempo and how many bars there are.";
}
