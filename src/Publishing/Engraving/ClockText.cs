using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Publishing.Engraving;

/// <summary>Times in a recording as players read them off a clock: "1:07"; less than a second before the recording is "0:00".</summary>
public static class ClockText
{
    public static string Of(Seconds time)
    {
        var whole = (long)Math.Floor(Math.Abs(time.Value) + 1e-6);
        return string.Create(CultureInfo.InvariantCulture, $"{(time.Value < 0 && whole > 0 ? "−" : "")}{whole / 60}:{whole % 60:00}");
    }
}
