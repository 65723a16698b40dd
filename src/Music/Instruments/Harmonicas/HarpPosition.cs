using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Harmonicas;

/// <summary>
/// Positions: the key of the tune against the key of the harmonica, counted in fifths from 1. Second position, "cross harp",
/// plays a fifth above (a harmonica in A for a tune in E).
/// </summary>
public static class HarpPosition
{
    /// <summary>The key that a harmonica plays in, in a position (1–12), with at most seven sharps or flats.</summary>
    public static PitchName Tonic(PitchName harp, int position) =>
        Usual(harp.Fifths + Fifths(position));

    /// <summary>Which harmonica plays in a key in a position (1–12).</summary>
    public static PitchName Harp(PitchName tonic, int position) =>
        Usual(tonic.Fifths - Fifths(position));

    /// <summary>Up to six fifths up, then down: position 7 of C is F#, 8 is Db, 12 is F.</summary>
    private static int Fifths(int position) =>
        position is >= 1 and <= 12
            ? position <= 7 ? position - 1 : position - 13
            : throw new ArgumentOutOfRangeException(nameof(position), position, "Positions run from 1 to 12.");

    private static PitchName Usual(int fifths) =>
        PitchName.FromFifths(fifths > 7 ? fifths - 12 : fifths < -7 ? fifths + 12 : fifths);
}
