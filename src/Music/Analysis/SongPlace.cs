using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Music.Analysis;

/// <summary>A stretch within one bar of a song.</summary>
/// <param name="Bar">The bar's number through the song, 1 for the first.</param>
/// <param name="Start">Felt beats from the bar's start.</param>
/// <param name="Length">Felt beats.</param>
public readonly record struct SongPlace(int Bar, Beats Start, Beats Length)
{
    /// <summary>A whole bar.</summary>
    public static SongPlace Of(Bar bar) => new(bar.Number, Beats.Zero, bar.Meter.BarLength);
}
