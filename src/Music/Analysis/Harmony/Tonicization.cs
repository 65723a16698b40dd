using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Analysis.Harmony.Readings;

namespace Harkbook.Music.Analysis.Harmony;

/// <summary>Chords in a row that treat one chord as home, and that chord where it follows.</summary>
/// <param name="Target">The chord that is home for the moment.</param>
/// <param name="Chords">In playing order, the target last where it follows.</param>
/// <param name="Arrives">Whether the target follows.</param>
public sealed record Tonicization(RomanNumeral Target, ImmutableArray<PlacedChord> Chords, bool Arrives)
{
    internal static IEnumerable<Tonicization> Find(ImmutableArray<PlacedChord> all)
    {
        var sounding = all.Where(c => c.Reading.Numeral is not null).ToList();
        for (int from = 0, to; from < sounding.Count; from = to)
        {
            to = from + 1;
            if (sounding[from].Reading.Numeral!.Target is not { } target)
                continue;
            while (to < sounding.Count && sounding[to].Reading.Numeral!.Target == target)
                to++;
            var arrives = to < sounding.Count && sounding[to].Reading.Numeral!.SemitonesAboveHome == target.SemitonesAboveHome;
            yield return new(target, [.. sounding[from..(arrives ? to + 1 : to)]], arrives);
        }
    }

    public bool Equals(Tonicization? other) =>
        other is not null && Target == other.Target && Arrives == other.Arrives && Chords.AsSpan().SequenceEqual(other.Chords.AsSpan());

    public override int GetHashCode() => HashCode.Combine(Target, Chords.Length);
}
