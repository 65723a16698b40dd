using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>A chord use of a song with its reading.</summary>
/// <param name="Standing">Who says that the chord sounds.</param>
public sealed record PlacedChord(SongPlace Place, ChordInContext Reading, Standing Standing)
{
    /// <summary>The chord's numeral in the key that follows, where the key changes behind it and it belongs to both keys; else null.</summary>
    public RomanNumeral? Pivot { get; init; }

    /// <summary>The bass is not the root and stays where it was, or where it will be, while the chord above it changes.</summary>
    public bool IsOverPedal { get; init; }
}
