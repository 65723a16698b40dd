using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>A chord use of a song with its reading.</summary>
/// <param name="Standing">Who says that the chord sounds.</param>
public sealed record PlacedChord(SongPlace Place, ChordInContext Reading, Standing Standing)
{
    /// <summary>The chord's numeral in the key that follows, where the key changes behind it and it belongs to both keys; else null.</summary>
    public RomanNumeral? Pivot { get; init; }

    /// <summary>Not on its root but over the home note or the fifth of the key, which stays in the bass through chords in a row.</summary>
    public bool IsOverPedal { get; init; }
}
