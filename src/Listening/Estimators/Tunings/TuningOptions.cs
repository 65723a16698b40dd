using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How tunings are weighed. Weights are natural logarithms and our own judgement.</summary>
public sealed record TuningOptions
{
    /// <summary>The highest capo considered.</summary>
    public int HighestCapo { get; init; } = 7;

    /// <summary>Notes that start within this of each other are taken as struck together.</summary>
    public Seconds Together { get; init; } = Seconds.FromMilliseconds(60);

    /// <summary>Repeats tell little, so a long song counts as no more notes than this.</summary>
    public int MostNotes { get; init; } = 70;

    /// <summary>Different struck groups that are tried on the neck, the most frequent first.</summary>
    public int MostGroups { get; init; } = 60;

    /// <summary>How many candidates are returned.</summary>
    public int Candidates { get; init; } = 6;
}
