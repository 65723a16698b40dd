using System.Collections.Immutable;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;

namespace Harkbook.Bench.Planted;

/// <summary>A right transcription with one error put in.</summary>
/// <param name="Kind">What was done to it, in words.</param>
/// <param name="FoundBy">The kinds of claims by which it may be found.</param>
/// <param name="IsAt">Whether a finding of such a kind stands at the error's place.</param>
internal sealed record PlantedError(string Kind, ClaimKind[] FoundBy, Func<Finding, bool> IsAt)
{
    /// <summary>The wrong song; null where an annotation was made wrong.</summary>
    public Song? Song { get; init; }

    public Annotation? Annotation { get; init; }

    /// <summary>What a finding may call the truth, any of these; empty where the truth has no name.</summary>
    public string[] Truth { get; init; } = [];

    public CheckResult CheckedBy(Checker checker) => Song is not null ? checker.Check(Song) : checker.Check(Annotation!);

    /// <summary>Of each kind by which the error may be found, the finding that doubts it most.</summary>
    public ImmutableArray<Finding> In(CheckResult result) =>
        [.. result.Findings.Where(f => FoundBy.Contains(f.Kind) && IsAt(f)).GroupBy(f => f.Kind).Select(k => k.MinBy(f => f.Support)!)];

    /// <summary>Whether the finding's first rival is the truth; a time is, where it lies within 70 ms.</summary>
    public bool IsNamedBy(Finding finding) =>
        Truth.Any(t => TimeText.TryRead(t, out var at) && TimeText.TryRead(finding.Suggestion ?? "", out var told) && Math.Abs((at - told).Value) < 0.07)
        || Truth.Any(t => finding.Suggestion == t || finding.Rival?.Reading == t
            || (t.Length > 1 && $" {finding.Heard} {finding.Suggestion} {finding.Rival?.Reading} "
            .Replace(',', ' ').Replace(';', ' ').Contains($" {t} ", StringComparison.Ordinal)));
}
