namespace Harkbook.Listening.Interchange;

/// <summary>
/// A time and a duration as JAMS writes intervals, in whole microseconds. Readers add the two up in binary floating point, where 0.1 + 0.2 is more
/// than 0.3; a duration whose sum would pass the end is a billionth of a second shorter, so that intervals that follow one another never overlap.
/// </summary>
internal readonly record struct JamsInterval
{
    private const int Digits = 6;
    private const double Microsecond = 1e-6;

    public JamsInterval(double start, double end, double shortest = 0)
    {
        Time = Math.Round(Math.Max(0, start), Digits);
        var last = Math.Round(Math.Max(Time + shortest, end), Digits);
        var duration = Math.Round(last - Time, Digits);
        Duration = Time + duration > last ? Math.Round(duration - Microsecond / 1000, Digits + 3) : duration;
    }

    public double Time { get; }

    public double Duration { get; }

    /// <summary>Of a note, which lasts a microsecond at least.</summary>
    public static JamsInterval Sounding(double onset, double end) => new(onset, end, Microsecond);
}
