using System.Collections.Immutable;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Where a chord comes from.</summary>
/// <param name="Kind">The group that it belongs to.</param>
public sealed record Origin(OriginKind Kind)
{
    /// <summary>The modes on the same home note that hold the chord, the one that textbooks name first; empty unless it is borrowed.</summary>
    public ImmutableArray<Mode> From { get; init; } = [];

    /// <summary>From another mode on the same home note, the Neapolitan among it.</summary>
    public bool IsBorrowed => Kind is OriginKind.Borrowed or OriginKind.Neapolitan;

    /// <summary>Of the key, with or without minor's raised leading note or a note of colour.</summary>
    public bool IsNative => Kind is OriginKind.Native or OriginKind.LeadingNote or OriginKind.Coloured;

    public bool Equals(Origin? other) => other is not null && Kind == other.Kind && From.AsSpan().SequenceEqual(other.From.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Kind, From.Length);
}
