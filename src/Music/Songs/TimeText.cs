using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Music.Songs;

/// <summary>Times as players read them off a counter: "1:23.412", "0:02.3", "1:02:03", or plain seconds, "2.315".</summary>
public static class TimeText
{
    public static bool TryRead(string text, out Seconds time)
    {
        time = default;
        var parts = text.Split(':');
        if (parts.Length > 3 || parts.Any(p => p.Length is 0 or > 14 || !char.IsAsciiDigit(p[0]) || !char.IsAsciiDigit(p[^1])))
            return false;
        var total = 0m;
        for (var i = 0; i < parts.Length; i++)
        {
            var style = i == parts.Length - 1 ? NumberStyles.AllowDecimalPoint : NumberStyles.None;
            if (!decimal.TryParse(parts[i], style, CultureInfo.InvariantCulture, out var value) || (i > 0 && value >= 60) || value > 1_000_000)
                return false;
            total = total * 60 + value;
        }
        time = Seconds.FromSeconds((double)total);
        return true;
    }

    /// <summary>Minutes and seconds to the millisecond, or to the microsecond where that says more. Not for negative times.</summary>
    public static string Write(Seconds time)
    {
        if (time.Value < 0)
            throw new ArgumentOutOfRangeException(nameof(time), time.Value, "A recording starts at 0 s; a time before it can't be written.");
        var exact = Math.Round((decimal)time.Value, 6);
        var minutes = decimal.Floor(exact / 60);
        return string.Create(CultureInfo.InvariantCulture, $"{minutes}:{exact - minutes * 60:00.000###}");
    }
}
