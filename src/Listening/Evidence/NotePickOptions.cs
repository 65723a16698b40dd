using Harkbook.Units;

namespace Harkbook.Listening.Evidence;

/// <summary>How notes are picked from the evidence.</summary>
public sealed record NotePickOptions
{
    /// <summary>A note starts where the chance of an onset peaks above this; 0.2 (more notes) to 0.8 (surer ones).</summary>
    public double OnsetThreshold { get; init; } = 0.3;

    /// <summary>A note ends where the chance that it sounds falls below this; lower than the level it starts at.</summary>
    public double ReleaseThreshold { get; init; } = 0.3;

    /// <summary>Shorter notes are dropped.</summary>
    public Seconds ShortestNote { get; init; } = Seconds.FromMilliseconds(40);

    /// <summary>Two onsets of one pitch stand at least this far apart.</summary>
    public Seconds ClosestOnsets { get; init; } = Seconds.FromMilliseconds(60);
}
