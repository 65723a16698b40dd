using System.Collections.Immutable;

namespace Harkbook.Listening.Checking;

/// <summary>All findings of one check, in the order of the recording.</summary>
public sealed record CheckResult(ImmutableArray<Finding> Findings)
{
    /// <summary>What is claimed that the recording wasn't asked about, in words.</summary>
    public ImmutableArray<string> NotAsked { get; init; } = [];

    /// <summary>All findings, the most doubtful first.</summary>
    public IEnumerable<Finding> MostDoubtfulFirst => Findings.OrderBy(f => f.Support);

    public int Count(ClaimKind kind) => Findings.Count(f => f.Kind == kind);

    public int Count(ClaimKind kind, Verdict verdict) => Findings.Count(f => f.Kind == kind && f.Verdict == verdict);

    /// <summary>The share of a kind's claims that are supported, 0–1; null where there are none.</summary>
    public double? SupportedShare(ClaimKind kind) => Count(kind) is > 0 and var all ? (double)Count(kind, Verdict.Supported) / all : null;
}
