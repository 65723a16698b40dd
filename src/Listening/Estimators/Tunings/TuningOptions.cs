using Harkbook.Music.Instruments.Hands;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>How tunings are weighed.</summary>
public sealed record TuningOptions
{
    /// <summary>The highest capo considered.</summary>
    public int HighestCapo { get; init; } = 7;

    /// <summary>Strums and single notes that are tried on the neck; of a longer song stretches are taken.</summary>
    public int MostGroups { get; init; } = 160;

    /// <summary>Different sets of pitches held together that are tried on the neck, the most frequent first.</summary>
    public int MostSets { get; init; } = 30;

    /// <summary>Of so many of the likeliest tunings every single string is tried elsewhere; 0 keeps to the catalogue.</summary>
    public int MovedFrom { get; init; } = 2;

    /// <summary>
    /// What each tuning of no catalogue costs, as a natural logarithm: how strong the evidence for it must be. With about 120 of them tried,
    /// 8 gives them together one chance in twenty-five beforehand; that is our judgement.
    /// </summary>
    public double MovedStringCost { get; init; } = 8;

    /// <summary>The player's.</summary>
    public Hand Hand { get; init; } = Hand.Usual;

    /// <summary>How many candidates are returned.</summary>
    public int Candidates { get; init; } = 6;

    /// <summary>
    /// How far it counts how usual a tuning is: 1 as the table has it, 0 for material in which any is as likely as another. The table is our
    /// own estimate, and lessons are asked for unusual tunings more than their share, so the default leans to what is heard.
    /// </summary>
    public double TuningHabit { get; init; } = 0.6;

    /// <summary>The same for the capo's fret.</summary>
    public double CapoHabit { get; init; } = 0.6;
}
