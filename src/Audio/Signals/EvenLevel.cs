namespace Harkbook.Audio.Signals;

/// <summary>Brings sound to an equal, safe level, by one gain over the whole of it.</summary>
public static class EvenLevel
{
    /// <summary>The highest true peak of anything we write, in dBTP: room for a lossy coder's overshoot (EBU R 128).</summary>
    public const double Ceiling = -1;

    /// <summary>
    /// The signal at a loudness, or as near below it as the <see cref="Ceiling"/> lets it come. Silence stays as it is.
    /// </summary>
    public static Signal At(Signal signal, Loudness target)
    {
        var room = Ceiling - LoudnessMeter.TruePeak(signal);
        var wanted = target.Lufs - LoudnessMeter.Integrated(signal)?.Lufs ?? 0;
        return Gained(signal, Math.Min(wanted, room));
    }

    private static Signal Gained(Signal signal, double decibels)
    {
        var factor = (float)Math.Pow(10, decibels / 20);
        return new(signal.Rate, [.. signal.Channels.Select(channel => channel.Select(s => s * factor).ToArray())]);
    }
}
