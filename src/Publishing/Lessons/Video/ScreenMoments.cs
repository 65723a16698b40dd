using System.Collections.Immutable;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>What stands still on the screen for a while: two frames of equal moments differ only in their moving parts.</summary>
/// <param name="Bar">The index of the bar; −1 before the music.</param>
/// <param name="Beat">The felt beat in the bar, from 0.</param>
/// <param name="Chord">The index of the last chord that began; −1 before the first.</param>
/// <param name="Holds">Whether that chord still sounds.</param>
/// <param name="Breath">The index of the breath that sounds; −1 where none does.</param>
/// <param name="BeatsToStart">Felt beats until the music, the one sounding included; 0 once it has begun.</param>
/// <param name="SecondsToStart">Whole seconds until the music, rounded up.</param>
/// <param name="BeatsToNext">Felt beats until the next chord, the one sounding included; 0 where none comes.</param>
/// <param name="IsOver">Whether the music has ended and the recording goes on.</param>
internal readonly record struct ScreenMoment(int Bar, int Beat, int Chord, bool Holds, int Breath, int BeatsToStart, int SecondsToStart,
    int BeatsToNext, bool IsOver);

/// <summary>Finds the moment at a time, quickly enough to ask for each frame of a long recording.</summary>
internal sealed class ScreenMoments
{
    /// <summary>A beat that starts this close before a chord is the chord's own.</summary>
    private const double Close = 0.02;

    private readonly LessonTimeline timeline;
    private readonly double[] barStarts;
    private readonly double[] beatStarts;
    private readonly double firstBeat;

    public ScreenMoments(LessonTimeline timeline)
    {
        this.timeline = timeline;
        barStarts = [.. timeline.Bars.Select(b => b.Start)];
        beatStarts = [.. timeline.Bars.SelectMany(b => b.BeatTimes.SkipLast(1))];
        firstBeat = timeline.Bars.IsEmpty ? 1 : Math.Max(0.05, timeline.Bars[0].BeatTimes[1] - timeline.Bars[0].BeatTimes[0]);
    }

    public ScreenMoment At(double time)
    {
        var bar = StartedBy(barStarts, time) - 1;
        var chord = LessonTimeline.IndexAt(timeline.Chords, time);
        var breath = LessonTimeline.IndexAt(timeline.Harp, time);
        var wait = Wait(time);
        return new(
            bar,
            bar < 0 ? -1 : BeatIn(timeline.Bars[bar].BeatTimes, time),
            chord,
            chord >= 0 && time < timeline.Chords[chord].End + 0.001,
            breath >= 0 && time < timeline.Harp[breath].End ? breath : -1,
            BeatsOf(wait),
            (int)Math.Ceiling(wait - 1e-6),
            chord + 1 < timeline.Chords.Length ? BeatsUntil(time, timeline.Chords[chord + 1].Start) : 0,
            bar >= 0 && time >= timeline.Music.End);
    }

    /// <summary>Felt beats from a time until another, the one sounding included; before the music they are counted as long as its first.</summary>
    public int BeatsUntil(double time, double until)
    {
        var inside = Math.Max(0, StartedBy(beatStarts, until - Close) - StartedBy(beatStarts, time));
        return Wait(time) > 0 ? inside + BeatsOf(Wait(time)) : inside + 1;
    }

    private double Wait(double time) => timeline.Bars.IsEmpty ? 0 : Math.Max(0, timeline.Music.Start - time);

    private int BeatsOf(double wait) => (int)Math.Ceiling(wait / firstBeat - 1e-6);

    private static int BeatIn(ImmutableArray<double> times, double time)
    {
        var beat = 0;
        while (beat + 2 < times.Length && times[beat + 1] <= time)
            beat++;
        return beat;
    }

    /// <summary>How many of the rising starts are at or before a time.</summary>
    private static int StartedBy(double[] starts, double time)
    {
        var (low, high) = (0, starts.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = starts[middle] <= time ? (middle + 1, high) : (low, middle);
        }
        return low;
    }
}
