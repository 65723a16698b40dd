using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;

namespace Harkbook.Workbench.Sheet;

/// <summary>A chord on the open sheet.</summary>
/// <param name="Box">Where its name stands, in the row's points.</param>
/// <param name="Doubt">What the check says against it; null where it says nothing.</param>
public sealed record ChordPicture(Claim<ChordUse> Claim, string Shown, Box Box, Finding? Doubt)
{
    /// <summary>The pattern that lies over it: none over what a person decided, the closer the less sure it was heard.</summary>
    public string? Hatch => Claim.Standing.Kind switch
    {
        StandingKind.Heard => Claim.Standing.Confidence switch { >= 0.85 => "hatch-wide", >= 0.6 => "hatch", _ => "hatch-close" },
        StandingKind.Assumed => "hatch-close",
        _ => null,
    };

    /// <summary>How it stands, in words.</summary>
    public string Standing => (Claim.Standing.Kind switch
    {
        StandingKind.Heard => Claim.Standing.Confidence is { } c ? $"heard, {Math.Round(c * 100)}% sure" : "heard",
        StandingKind.Corrected => "corrected",
        StandingKind.Assumed => "assumed",
        _ => "decided",
    }) + (Doubt is null ? "" : Doubt.Verdict == Verdict.Contradicted ? ", contradicted" : ", doubtful")
        + (Doubt?.Rival is { } rival ? $", heard {SpokenChord.Of(rival.Reading)}" : "");
}
