using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>What a chord is and does in its key, between its neighbours.</summary>
/// <param name="Chord">As the song says it; never changed.</param>
/// <param name="Key">The key in which it is read.</param>
/// <param name="Numeral">Null where no chord sounds.</param>
/// <param name="Reasons">Why it is read so, in words, the weightiest first; empty where no chord sounds.</param>
public sealed record ChordInContext(
    Chord Chord, Key Key, RomanNumeral? Numeral, HarmonicFunction Function, Origin Origin, ImmutableArray<string> Reasons)
{
    /// <summary>Reads a chord; neighbours are the chords that sound before and after it, null at the song's ends or where they are unknown.</summary>
    /// <param name="isBlues">The song puts dominant sevenths on its one and four chords, so that they lead nowhere.</param>
    public static ChordInContext Of(Chord chord, Key key, Chord? before = null, Chord? after = null, bool isBlues = false) =>
        chord.IsNone
            ? new(chord, key, null, HarmonicFunction.None, new(OriginKind.None), [])
            : ChordReader.Read(new(chord, key, before is { IsNone: true } ? null : before, after is { IsNone: true } ? null : after, isBlues));

    public bool Equals(ChordInContext? other) =>
        other is not null && (Chord, Key, Numeral, Function, Origin) == (other.Chord, other.Key, other.Numeral, other.Function, other.Origin)
        && Reasons.AsSpan().SequenceEqual(other.Reasons.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Chord, Key, Numeral);
}
