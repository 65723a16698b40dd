using System.Collections.Immutable;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>What a claim is about.</summary>
public enum ClaimKind
{
    Pitch,
    Tuning,
    Meter,
    Tempo,
    Key,
    Harp,
    Bar,
    Chord,
    Shape,
    Note,
}

/// <summary>How a claim stands against the recording.</summary>
public enum Verdict
{
    /// <summary>The recording speaks for it.</summary>
    Supported,

    /// <summary>The recording speaks neither clearly for it nor against it.</summary>
    Doubtful,

    /// <summary>The recording speaks against it.</summary>
    Contradicted,
}

/// <summary>Where a claim stands: a time in the recording and, for songs, bar and beat (both from 1).</summary>
public sealed record Place(Seconds Time, int? Bar = null, double? Beat = null);

/// <summary>One claim weighed against what was heard.</summary>
/// <param name="Support">0–1: how strongly the recording speaks for the claim.</param>
/// <param name="Claim">The claim in words.</param>
/// <param name="Heard">What was heard instead, in words; null where nothing better was.</param>
/// <param name="Suggestion">What would fit better, as a song file writes it; null where there is none.</param>
public sealed record Finding(ClaimKind Kind, Verdict Verdict, double Support, Place? Where, string Claim, string? Heard = null, string? Suggestion = null)
{
    /// <summary>The edit that puts the suggestion into the song file; null where there is none.</summary>
    public Remedy? Remedy { get; init; }
}

/// <summary>All findings of one check, in the order of the recording.</summary>
public sealed record CheckResult(ImmutableArray<Finding> Findings)
{
    /// <summary>What is claimed that the recording wasn't asked about, in words.</summary>
    public ImmutableArray<string> NotAsked { get; init; } = [];

    public int Count(ClaimKind kind) => Findings.Count(f => f.Kind == kind);

    public int Count(ClaimKind kind, Verdict verdict) => Findings.Count(f => f.Kind == kind && f.Verdict == verdict);

    /// <summary>The share of a kind's claims that are supported, 0–1; null where there are none.</summary>
    public double? SupportedShare(ClaimKind kind) => Count(kind) is > 0 and var all ? (double)Count(kind, Verdict.Supported) / all : null;
}
