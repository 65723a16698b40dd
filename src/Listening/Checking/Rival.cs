namespace Harkbook.Listening.Checking;

/// <summary>The best reading that doesn't keep a claim.</summary>
/// <param name="Reading">What it has in the claim's place, as a song file writes it where it can: "Am", "1:23.456", "2".</param>
/// <param name="LogOdds">How far it is ahead of the claim, as the natural log of how many times as likely; below 0 where it is behind.</param>
public sealed record Rival(string Reading, double LogOdds);
