using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>Times in a recording as players read them off a clock: "1:07"; what begins before the recording is heard from "0:00".</summary>
public static class ClockText
{
    public static string Of(Seconds time)
    {
        var whole = (long)Math.Floor(Math.Max(0, time.Value) + 1e-6);
        return string.Create(CultureInfo.InvariantCulture, $"{whole / 60}:{whole % 60:00}");
    }
}
