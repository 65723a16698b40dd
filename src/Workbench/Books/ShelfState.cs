namespace Harkbook.Workbench.Books;

/// <summary>How far a song has come.</summary>
public enum ShelfState
{
    /// <summary>All of it is as the program heard it.</summary>
    Heard,
    BeingDecided,

    /// <summary>No chord is merely heard.</summary>
    Decided,

    /// <summary>Decided, and a lesson was made since the last change.</summary>
    Published,
}
