using System.Globalization;

namespace Harkbook.Audio.Signals;

/// <summary>How loud sound is to the ear, in LUFS (ITU-R BS.1770-4 calls the unit LKFS).</summary>
public readonly record struct Loudness : IComparable<Loudness>
{
    private Loudness(double lufs) => Lufs = lufs;

    public double Lufs { get; }

    public static Loudness FromLufs(double value) =>
        double.IsFinite(value)
            ? new(value)
            : throw new ArgumentOutOfRangeException(nameof(value), value, "A loudness is a finite number; silence has none.");

    public int CompareTo(Loudness other) => Lufs.CompareTo(other.Lufs);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Lufs:0.0} LUFS");
}
