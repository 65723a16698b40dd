namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>What a chord does, in a player's words. Textbooks say tonic, predominant and dominant ("Open Music Theory").</summary>
public enum HarmonicFunction
{
    /// <summary>No chord sounds, or it belongs to no group.</summary>
    None,

    /// <summary>The home chord.</summary>
    Home,

    /// <summary>Shares two notes with home and can stand in for it: the six and three chords.</summary>
    NearHome,

    /// <summary>Leads away from home, or on to what leads home: the four and two chords and their kin.</summary>
    Away,

    /// <summary>Leads home: holds the leading note, or is the five chord.</summary>
    LeadsHome,

    /// <summary>Leads to another chord as if that were home.</summary>
    LeadsElsewhere,
}
