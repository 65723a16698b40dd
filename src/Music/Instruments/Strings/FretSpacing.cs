using Harkbook.Units;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>Where frets stand: each leaves 2^(−1/12) of the string that the fret below it left (equal temperament).</summary>
public static class FretSpacing
{
    /// <summary>From the nut to a fret (0 = the nut) on a string of a scale length.</summary>
    public static Length FromNut(Length scale, int fret) =>
        fret >= 0
            ? scale * (1 - Math.Pow(2, -fret / 12.0))
            : throw new ArgumentOutOfRangeException(nameof(fret), fret, "Frets count from 0, the nut.");

    /// <summary>From one fret up to another; negative when the second lies nearer the nut.</summary>
    public static Length Between(Length scale, int from, int to) => FromNut(scale, to) - FromNut(scale, from);
}
