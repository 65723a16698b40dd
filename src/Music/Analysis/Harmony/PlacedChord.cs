using Harkbook.Music.Songs;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>A chord use of a song with its reading.</summary>
/// <param name="Standing">Who says that the chord sounds.</param>
public sealed record PlacedChord(SongPlace Place, ChordInContext Reading, Standing Standing)
{
    /// <summary>The chord's numeral in the key that follows, where the key changes after it and it belongs to both; else null.</summary>
    public RomanNumeral? Pivot { get; init; }

    /// <summary>The bass stays on a foreign or held note under changing chords.</summary>
    public bool IsOverPedal { get; init; }
}
