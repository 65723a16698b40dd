using Harkbook.Units;

namespace Harkbook.Music.Analysis.SecondInstruments;

/// <summary>What a player's breath is taken to allow. Players and reeds differ: these are assumptions, and reports say them.</summary>
public sealed record BreathPlanOptions
{
    public static BreathPlanOptions Usual { get; } = new();

    /// <summary>How long one way may sound without tiring; 8 s, our assumption for one or two holes at an easy loudness. Above 0.</summary>
    public Seconds LongestBreath { get; init; } = Seconds.FromSeconds(8);

    /// <summary>The shortest silence in which a player can breathe freely; 0.3 s, our assumption. 0 or more.</summary>
    public Seconds ShortestRest { get; init; } = Seconds.FromSeconds(0.3);
}
