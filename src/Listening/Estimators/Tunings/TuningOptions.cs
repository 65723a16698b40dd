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

    /// <summary>
    /// How far common practice counts: 1 as the table has it, 0 where any tuning is as likely as another. Less than 1 because a song that is worth
    /// asking about is oftener in an altered tuning than songs are in general; our own judgement.
    /// </summary>
    public double Habit { get; init; } = 0.4;
}
