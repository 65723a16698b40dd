using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>Weighs where claimed bars start against the beats heard.</summary>
public sealed class BarWeigher(Hearing hearing, CheckOptions options)
{
    private readonly double[] times = [.. hearing.Beats.Select(b => b.Time.Value)];

    /// <summary>
    /// A bar on a heard downbeat is supported, on another beat doubtful, off every beat contradicted. Where a song's bars can't be made of heard ones or
    /// parts of them, since it is in another meter, heard downbeats say nothing, and a bar that starts on a beat and holds its number of them is supported.
    /// </summary>
    /// <param name="beats">How many heard beats the song's bar should hold; null where it isn't known.</param>
    /// <param name="end">Where the bar ends.</param>
    public Finding Weigh(Seconds start, Place where, string claim, int? beats = null, Seconds end = default)
    {
        if (times.Length == 0)
            return new(ClaimKind.Bar, Verdict.Doubtful, 0.3, where, claim, "no steady beat heard");
        var index = Nearest(start.Value);
        var beat = hearing.Beats[index];
        var off = start.Value - beat.Time.Value;
        var closeness = Math.Exp(-0.5 * Math.Pow(off / options.BarWindow, 2));
        if (Math.Abs(off) > options.BarWindow)
        {
            var outside = start.Value < times[0] - options.BarWindow || start.Value > times[^1] + options.BarWindow;
            return outside
                ? new(ClaimKind.Bar, Verdict.Doubtful, 0.3, where, claim, "no beat is heard so far out")
                : new(ClaimKind.Bar, Verdict.Contradicted, 0.2 * closeness, where, claim, Off(off, "beat"), TimeText.Write(Seconds.FromSeconds(Math.Round(Math.Max(0, beat.Time.Value), 3))));
        }
        var heardBar = hearing.Meter.Best.BeatsPerBar;
        if (beats is { } count && count % heardBar != 0 && heardBar % count != 0)
            return Nearest(end.Value) - index == count || end.Value > times[^1] + options.BarWindow
                ? new(ClaimKind.Bar, Verdict.Supported, 0.5 * closeness, where, claim)
                : new(ClaimKind.Bar, Verdict.Doubtful, 0.4 * closeness, where, claim, $"{Nearest(end.Value) - index} heard beats fill this bar, not {count}");
        var starts = beat.PositionInBar == 1 || (beats is { } part && heardBar % part == 0 && (beat.PositionInBar - 1) % part == 0);
        return starts
            ? new(ClaimKind.Bar, Verdict.Supported, 0.5 + 0.5 * closeness * beat.Confidence, where, claim)
            : new(ClaimKind.Bar, Verdict.Doubtful, 0.4 * closeness, where, claim, $"beat {beat.PositionInBar} of a bar falls here");
    }

    private int Nearest(double time)
    {
        var index = Array.BinarySearch(times, time);
        if (index >= 0)
            return index;
        index = ~index;
        return index == 0 ? 0
            : index == times.Length || time - times[index - 1] < times[index] - time ? index - 1
            : index;
    }

    private static string Off(double seconds, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"the nearest {what} is {Math.Abs(seconds) * 1000:0} ms {(seconds > 0 ? "earlier" : "later")}");
}
