namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// The places of a beat in its bar that the decoder tells apart: bars of 2, 3 and 4 felt beats, nine places in all.
/// </summary>
internal static class BarModel
{
    public const int Places = 9;

    /// <summary>Felt beats in a bar of each kind.</summary>
    public static int[] Lengths { get; } = [2, 3, 4];

    /// <summary>The place of the downbeat of each kind of bar.</summary>
    public static int[] Downbeats { get; } = [0, 2, 5];

    /// <summary>The kind of bar of each place.</summary>
    public static int[] KindOf { get; } = [0, 0, 1, 1, 1, 2, 2, 2, 2];

    /// <summary>1 for a downbeat.</summary>
    public static int PositionOf(int place) => place - Downbeats[KindOf[place]] + 1;

    public static bool IsDownbeat(int place) => PositionOf(place) == 1;

    /// <summary>The place of the beat before, in bars that run on regularly.</summary>
    public static int Before(int place) => IsDownbeat(place) ? place + Lengths[KindOf[place]] - 1 : place - 1;

    public static int After(int place) => PositionOf(place) == Lengths[KindOf[place]] ? Downbeats[KindOf[place]] : place + 1;
}
