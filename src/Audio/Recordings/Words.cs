using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>Times as a message says them.</summary>
internal static class Words
{
    /// <summary>"0.3 s", "4 min 05 s", "3 h 12 min".</summary>
    public static string Time(Seconds time)
    {
        var span = TimeSpan.FromSeconds(time.Value);
        return time.Value switch
        {
            < 60 => string.Create(CultureInfo.InvariantCulture, $"{time.Value:0.0} s"),
            < 3600 => $"{span.Minutes} min {span.Seconds:00} s",
            _ => $"{(int)span.TotalHours} h {span.Minutes:00} min",
        };
    }
}
