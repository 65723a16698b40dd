namespace Harkbook.Music.Analysis.Harmony;

/// <summary>How a section ends, in textbooks' terms ("Open Music Theory").</summary>
public enum CadenceKind
{
    /// <summary>From five, or the diminished chord on seven, home.</summary>
    Authentic,

    /// <summary>From four home.</summary>
    Plagal,

    /// <summary>On the five chord, left open.</summary>
    Half,

    /// <summary>From five to six instead of home.</summary>
    Deceptive,
}

/// <summary>The last two chords of a section, where they make a cadence.</summary>
/// <param name="Section">Counted from 0.</param>
/// <param name="Place">Where the last chord stands.</param>
public sealed record Cadence(CadenceKind Kind, int Section, string SectionName, SongPlace Place);
