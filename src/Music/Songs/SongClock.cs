using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>
/// Ties bars and beats to seconds: straight lines between anchors, the song's tempo before the first and after the last.
/// Without anchors, bar 1 starts at 0 s.
/// </summary>
public sealed class SongClock
{
    private readonly ImmutableArray<(double Beat, double Time)> ties;
    private readonly ImmutableArray<double> barStarts;
    private readonly double secondsPerBeat;

    public SongClock(Song song)
    {
        secondsPerBeat = 60 / song.Tempo.Value;
        var starts = ImmutableArray.CreateBuilder<double>();
        var tied = ImmutableArray.CreateBuilder<(double, double)>();
        var beat = 0.0;
        foreach (var section in song.Sections)
        {
            var first = starts.Count;
            foreach (var bar in section.Bars)
            {
                starts.Add(beat);
                beat += bar.Meter.BarLength.Value;
            }
            foreach (var anchor in section.Anchors)
            {
                var index = first + anchor.Bar - 1;
                tied.Add(((index < starts.Count ? starts[index] : beat) + anchor.Beat.Value, anchor.At.Value));
            }
        }
        starts.Add(beat);
        barStarts = starts.ToImmutable();
        ties = tied.Count == 0 ? [(0, 0)] : [.. tied.DistinctBy(t => t.Item1).OrderBy(t => t.Item1)];
        for (var i = 1; i < ties.Length; i++)
        {
            if (ties[i].Time <= ties[i - 1].Time)
                throw new ArgumentException($"The anchor at {ties[i].Time} s does not come after the one before it, at {ties[i - 1].Time} s; a song read from "
                    + "a file has rising anchors.", nameof(song));
        }
    }

    /// <summary>The time of a place in a bar (number from 1). One bar past the last is the song's end.</summary>
    public Seconds TimeOf(int barNumber, Beats inBar = default)
    {
        if (barNumber < 1 || barNumber > barStarts.Length)
            throw new ArgumentOutOfRangeException(nameof(barNumber), barNumber, $"The song has bars 1 to {barStarts.Length - 1}.");
        return Seconds.FromSeconds(TimeOfBeat(barStarts[barNumber - 1] + inBar.Value));
    }

    /// <summary>The bar sounding at a time and the beats since its start; before the song bar 1 (negative beats), after it the last.</summary>
    public (int BarNumber, double BeatInBar) PlaceOf(Seconds time)
    {
        var beat = BeatOfTime(time.Value);
        var index = barStarts.BinarySearch(beat + 1e-9);
        var bar = Math.Clamp(index >= 0 ? index : ~index - 1, 0, Math.Max(0, barStarts.Length - 2));
        return (bar + 1, beat - barStarts[bar]);
    }

    private double TimeOfBeat(double beat)
    {
        var (before, after) = Around(t => t.Beat, beat);
        return before.Time + (beat - before.Beat) * Slope(before, after);
    }

    private double BeatOfTime(double time)
    {
        var (before, after) = Around(t => t.Time, time);
        return before.Beat + (time - before.Time) / Slope(before, after);
    }

    /// <summary>The tie to count from and, strictly inside the anchored stretch, the one to count towards.</summary>
    private ((double Beat, double Time) From, (double Beat, double Time)? To) Around(Func<(double Beat, double Time), double> of, double value)
    {
        if (value < of(ties[0]))
            return (ties[0], null);
        var last = ties.Length - 1;
        while (last > 0 && of(ties[last]) > value)
            last--;
        return (ties[last], last + 1 < ties.Length ? ties[last + 1] : null);
    }

    private double Slope((double Beat, double Time) from, (double Beat, double Time)? to) =>
        to is { } end ? (end.Time - from.Time) / (end.Beat - from.Beat) : secondsPerBeat;
}
