namespace Harkbook.Listening;

/// <summary>What plays or sings a line with the guitar.</summary>
public enum LineKind
{
    Harmonica,

    Voice,

    /// <summary>A whistle or flute.</summary>
    Whistle,

    /// <summary>A fiddle or another bowed string.</summary>
    Bowed,
}
