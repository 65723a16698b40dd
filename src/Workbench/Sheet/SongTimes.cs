using System.Collections.Immutable;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Workbench.Sheet;

/// <summary>What the script that plays needs of a song: when its bars and beats fall, and which row each bar stands on.</summary>
/// <param name="Bars">Starts in seconds; behind the last bar its end.</param>
/// <param name="Beats">Starts of all beats, rising.</param>
/// <param name="Firsts">For each of them whether it begins a bar.</param>
/// <param name="Rows">The first bar of each row.</param>
public sealed record SongTimes(ImmutableArray<double> Bars, ImmutableArray<double> Beats, ImmutableArray<bool> Firsts, ImmutableArray<int> Rows)
{
    public static SongTimes Of(Song song, OpenSong open)
    {
        var (clock, count) = (new SongClock(song), song.Bars.Count());
        var beats = song.Bars.SelectMany(b => Enumerable.Range(0, b.Meter.BeatsPerBar).Select(i => (b.Number, Beat: i))).ToList();
        return new([.. Enumerable.Range(1, count == 0 ? 0 : count + 1).Select(b => Ms(clock.TimeOf(b)))],
            [.. beats.Select(b => Ms(clock.TimeOf(b.Number, Units.Beats.Whole(b.Beat))))], [.. beats.Select(b => b.Beat == 0)],
            [.. Enumerable.Range(0, open.Rows).Select(r => open.FirstBar(r))]);
    }

    private static double Ms(Seconds time) => Math.Round(time.Value, 3);
}
