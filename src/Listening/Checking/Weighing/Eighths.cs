using System.Globalization;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>How long eighths are, and distances in time as a player would say them.</summary>
internal static class Eighths
{
    /// <summary>The mean length of a bar's eighths, in seconds; a compound meter's felt beat has three.</summary>
    public static double In(Bar bar, SongClock clock) =>
        (clock.TimeOf(bar.Number, bar.Meter.BarLength) - clock.TimeOf(bar.Number)).Value / bar.Meter.BarLength.Value / (bar.Meter.IsCompound ? 3 : 2);

    /// <summary>"an eighth later", "120 ms earlier".</summary>
    /// <param name="eighth">Null where none is known.</param>
    public static string Moved(double seconds, double? eighth)
    {
        var way = seconds > 0 ? "later" : "earlier";
        var eighths = eighth is { } length ? Math.Abs(seconds) / length : 0;
        return Math.Abs(eighths - 1) < 0.3 ? $"an eighth {way}"
            : string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(seconds) * 1000:0} ms {way}");
    }
}
