using System.Collections.Immutable;

namespace Harkbook.Listening;

/// <summary>One answer with how sure it is (0–1) and, where it helps, why, in words.</summary>
public sealed record Candidate<T>(T Value, double Confidence, string? Evidence = null);

/// <summary>An estimate: candidates, the likeliest first. Never empty.</summary>
public sealed record Distribution<T>
{
    public Distribution(params ImmutableArray<Candidate<T>> candidates)
    {
        if (candidates.IsDefaultOrEmpty)
            throw new ArgumentException("An estimate needs at least one candidate; 'nothing there' is a candidate too.", nameof(candidates));
        Candidates = [.. candidates.OrderByDescending(c => c.Confidence)];
    }

    public ImmutableArray<Candidate<T>> Candidates { get; }

    public T Best => Candidates[0].Value;

    public double Confidence => Candidates[0].Confidence;
}
