namespace Harkbook.Music.Analysis.Practice;

/// <summary>What a round of practice starts with.</summary>
public enum RoundLead
{
    /// <summary>A counted bar before the first round at each speed; the others follow at once.</summary>
    CountEachSpeed,

    /// <summary>A counted bar before every round.</summary>
    CountEachRound,

    /// <summary>A counted bar before the first round at each speed, a silent one before the others.</summary>
    RestEachRound,
}
