namespace Harkbook.Music.Songs;

/// <summary>A fact of a song file, in the order in which a fresh file states them.</summary>
public enum SongFact
{
    Title,
    Player,
    Album,
    Recording,
    Pitch,
    Tuning,
    Capo,
    Names,
    Meter,
    Count,
    Tempo,
    Key,
    Tune,
    Harp,
}

/// <summary>A part of a section's bars, in the order in which a fresh file writes them.</summary>
public enum SongPart
{
    Chords,
    Strum,
    Sung,
    Tune,
    Harp,
    Pick,
}
