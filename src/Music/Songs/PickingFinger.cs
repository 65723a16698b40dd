namespace Harkbook.Music.Songs;

/// <summary>Fingers of the picking hand; scores give them the first letters of their Spanish names (common practice).</summary>
public enum PickingFinger
{
    /// <summary>Not said.</summary>
    None,

    /// <summary>p, pulgar.</summary>
    Thumb,

    /// <summary>i, índice.</summary>
    Index,

    /// <summary>m, medio.</summary>
    Middle,

    /// <summary>a, anular.</summary>
    Ring,

    /// <summary>c, chico; some write e.</summary>
    Little,
}
