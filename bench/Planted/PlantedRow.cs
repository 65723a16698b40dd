using System.Collections.Immutable;
using Harkbook.Listening.Checking;

namespace Harkbook.Bench.Planted;

/// <summary>What became of one planted error.</summary>
/// <param name="Finding">The finding that doubts it most; null where none is about it.</param>
/// <param name="IsNamed">Whether that one's rival is the truth; null where the truth has no name.</param>
internal sealed record PlantedRow(string Group, string Name, PlantedError Error, Finding? Finding, bool? IsNamed)
{
    /// <summary>Of each kind by which the error may be found, the finding that doubts it most.</summary>
    public ImmutableArray<Finding> ByKind { get; init; } = [];

    /// <summary>1 where nothing speaks of it.</summary>
    public double Support => Finding?.Support ?? 1;
}

/// <summary>A claim of a right transcription.</summary>
internal sealed record RightRow(string Group, string Name, Finding Finding);
