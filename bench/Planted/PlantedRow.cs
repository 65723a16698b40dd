using System.Collections.Immutable;
using Harkbook.Listening.Checking;

namespace Harkbook.Bench.Planted;

/// <summary>What became of one planted error.</summary>
/// <param name="ByKind">Of each kind by which the error may be found, the finding that doubts it most.</param>
internal sealed record PlantedRow(string Group, string Name, PlantedError Error, ImmutableArray<Finding> ByKind)
{
    /// <summary>The finding that doubts it most; null where none is about it.</summary>
    public Finding? Finding => ByKind.MinBy(f => f.Support);

    /// <summary>1 where nothing speaks of it.</summary>
    public double Support => Finding?.Support ?? 1;

    /// <summary>Whether an alarm about it has the truth as its first rival.</summary>
    public bool IsNamed(double threshold) => ByKind.Any(f => f.Support < threshold && Error.IsNamedBy(f));
}
