using System.Collections.Immutable;

namespace Harkbook.Listening;

/// <summary>What plays or sings lines with the guitar.</summary>
/// <param name="Alone">How sure it is that nothing does (0–1).</param>
/// <param name="Found">One line a kind, the surest first; empty where the guitar is heard alone.</param>
public sealed record HeardLines(double Alone, ImmutableArray<HeardLine> Found)
{
    /// <summary>Nothing was looked for.</summary>
    public static HeardLines NotLookedFor { get; } = new(0, []);

    /// <summary>The line of a kind; null where none was found.</summary>
    public HeardLine? Of(LineKind kind) => Found.FirstOrDefault(l => l.Kind.Best == kind);
}
