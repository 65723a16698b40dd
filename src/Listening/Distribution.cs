using System.Collections.Immutable;

namespace Harkbook.Listening;

/// <summary>One answer with how sure it is (0–1) and, where it helps, why, in words.</summary>
public sealed record Candidate<T>(T Value, double Confidence, string? Evidence = null);

/// <summary>
/// An estimate: candidates, the likeliest first, each as sure as it is likely to be right. Never empty. What their sum lacks of 1 is the share of
/// something else.
/// </summary>
public sealed record Distribution<T>
{
    private const double Rounding = 1e-9;

    public Distribution(params ImmutableArray<Candidate<T>> candidates)
    {
        if (candidates.IsDefaultOrEmpty)
            throw new ArgumentException("An estimate needs at least one candidate; 'nothing there' is a candidate too.", nameof(candidates));
        foreach (var candidate in candidates)
        {
            if (!(candidate.Confidence is >= 0 and <= 1 + Rounding))
                throw new ArgumentOutOfRangeException(nameof(candidates), candidate.Confidence, "A confidence is a probability, from 0 to 1.");
        }
        if (candidates.Sum(c => c.Confidence) is > 1 + Rounding and var sum)
            throw new ArgumentOutOfRangeException(nameof(candidates), sum, "Confidences of candidates that rule each other out sum to at most 1.");
        Candidates = [.. candidates.OrderByDescending(c => c.Confidence)];
    }

    public ImmutableArray<Candidate<T>> Candidates { get; }

    public T Best => Candidates[0].Value;

    public double Confidence => Candidates[0].Confidence;
}
