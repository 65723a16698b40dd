using System.Collections.Immutable;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Workbench.Desk;

/// <summary>A song on the workbench as it stands at a moment; everybody who looks at it sees the same.</summary>
/// <param name="Version">Rises with every change of the text.</param>
/// <param name="Document">The file's text, mistakes and all.</param>
/// <param name="Song">What the file says, or said before mistakes came into it from outside.</param>
public sealed record DeskView(int Version, SongDocument Document, Song Song)
{
    /// <summary>What was heard of the recording; null while it isn't known.</summary>
    public Hearing? Heard { get; init; }

    /// <summary>The check of this version; null until it is made.</summary>
    public CheckResult? Found { get; init; }

    /// <summary>What the workbench is doing for the song in the background, in a few words; null where nothing.</summary>
    public string? Work { get; init; }

    /// <summary>What to tell of the last thing that was tried; null where nothing.</summary>
    public string? Said { get; init; }

    /// <summary>What a person decided last, in words; null at the start.</summary>
    public string? Decision { get; init; }

    /// <summary>What followed from it.</summary>
    public ImmutableArray<Difference> Followed { get; init; } = [];

    /// <summary>What undoing would take back.</summary>
    public string? Undoable { get; init; }

    public string? Redoable { get; init; }

    /// <summary>Mistakes that stand in the file, which another program wrote.</summary>
    public ImmutableArray<Diagnostic> Mistakes => [.. Document.Diagnostics.Where(d => d.Severity == Severity.Error)];

    /// <summary>Doubts that nobody has answered, the most doubtful first; null while they aren't known.</summary>
    public ImmutableArray<Doubt>? Doubts { get; init; }
}
