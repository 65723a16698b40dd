using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How tunings are weighed.</summary>
public sealed record TuningOptions
{
    /// <summary>The highest capo considered.</summary>
    public int HighestCapo { get; init; } = 7;

    /// <summary>Strums and single notes that are tried on the neck; of a longer song stretches are taken.</summary>
    public int MostGroups { get; init; } = 160;

    /// <summary>Different sets of pitches held together that are tried on the neck, the most frequent first.</summary>
    public int MostSets { get; init; } = 40;

    /// <summary>How many candidates are returned.</summary>
    public int Candidates { get; init; } = 6;

    /// <summary>How far it counts how usual a tuning is: 1 as the table has it, 0 for material in which any is as likely as another.</summary>
    public double TuningHabit { get; init; } = 1;

    /// <summary>The same for the capo's fret.</summary>
    public double CapoHabit { get; init; } = 1;
}
