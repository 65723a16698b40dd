using System.Collections.Immutable;

namespace Harkbook.Listening.Checking;

/// <summary>One claim weighed against what was heard.</summary>
/// <param name="Support">The probability that the claim is right, 0–1 (<see cref="CheckCalibration"/>).</param>
/// <param name="Claim">The claim in words.</param>
/// <param name="Heard">What was heard instead, in words; null where nothing better was.</param>
/// <param name="Suggestion">What would fit better, as a song file writes it; null where there is none.</param>
public sealed record Finding(ClaimKind Kind, Verdict Verdict, double Support, Place? Where, string Claim, string? Heard = null, string? Suggestion = null)
{
    /// <summary>
    /// How far the best reading that keeps the claim is ahead of the best that doesn't, as the natural log of how many times as likely, before
    /// calibration; null where the verdict is the weigher's own and needs no recording.
    /// </summary>
    public double? LogOdds { get; init; }

    /// <summary>What else bears on the claim besides <see cref="LogOdds"/>, by name, for the calibration to count.</summary>
    public ImmutableDictionary<string, double> Clues { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>The best reading that doesn't keep the claim; null where nothing stands against it.</summary>
    public Rival? Rival { get; init; }

    /// <summary>The edit that puts the suggestion into the song file; null where there is none.</summary>
    public Remedy? Remedy { get; init; }

    /// <summary>
    /// A finding by its log-odds. Support and verdict follow from the calibration of its kind, which also drops what is offered instead of a
    /// supported claim.
    /// </summary>
    public static Finding Weighed(ClaimKind kind, double logOdds, Place? where, string claim, string? heard = null, string? suggestion = null) =>
        new(kind, Verdict.Doubtful, Listening.LogOdds.Chance(logOdds), where, claim, heard, suggestion) { LogOdds = logOdds };
}
