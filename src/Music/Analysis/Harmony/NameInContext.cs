using System.Collections.Immutable;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>A name for sounding notes, weighed with what sounds before and after them.</summary>
/// <param name="Cost">How far-fetched the name is here; only the order between names of one set means anything.</param>
/// <param name="Fits">What in the neighbours speaks for it, in words; empty where nothing does.</param>
public sealed record NameInContext(ChordName Name, double Cost, ImmutableArray<string> Fits)
{
    /// <summary>Why the notes can be called so, in words.</summary>
    public string Reason => string.Join("; ", Fits.Prepend(Name.Reason));

    public bool Equals(NameInContext? other) =>
        other is not null && (Name, Cost) == (other.Name, other.Cost) && Fits.AsSpan().SequenceEqual(other.Fits.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Name, Cost);
}
