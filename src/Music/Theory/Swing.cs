namespace Harkbook.Music.Theory;

/// <summary>
/// Uneven halves of a beat: the first lasts <see cref="Ratio"/> times the second. 1 is even, 2 is the triplet feel.
/// </summary>
public readonly record struct Swing
{
    private readonly double ratioLessOne;

    private Swing(double ratio) => ratioLessOne = ratio - 1;

    public double Ratio => ratioLessOne + 1;

    /// <summary>Even halves, the default.</summary>
    public static Swing Straight => default;

    /// <param name="ratio">First half to second, 1 to 4; players swing up to about 3.5 at slow tempi (Friberg and Sundström, Music Perception 19(3), 2002).</param>
    public static Swing OfRatio(double ratio) =>
        ratio is >= 1 and <= 4
            ? new(ratio)
            : throw new ArgumentOutOfRangeException(nameof(ratio), ratio, "The long half lasts 1 to 4 times the short one.");

    /// <summary>Where the off-beat falls in the beat: 0.5 when even, 2/3 at ratio 2.</summary>
    public double OffBeat => Ratio / (Ratio + 1);

    /// <summary>Where a written place sounds: both counted in beats; whole beats stay.</summary>
    public double Sounding(double written)
    {
        var beat = Math.Floor(written);
        var into = written - beat;
        return beat + (into < .5 ? 2 * into * OffBeat : OffBeat + (2 * into - 1) * (1 - OffBeat));
    }
}
