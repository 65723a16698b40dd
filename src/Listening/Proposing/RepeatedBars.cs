using System.Collections.Immutable;
using Harkbook.Music.Songs;

namespace Harkbook.Listening.Proposing;

/// <summary>
/// Reads sections that are alike together, bar by bar: chords and strokes that are the same in several are as sure in each as in their mean, and where one
/// is heard less surely than another way that its repeats have, it is taken to be played that way too. What is surely different stays.
/// </summary>
internal static class RepeatedBars
{
    /// <summary>What is heard as surely as this in one section stays, whatever its repeats have; another way must be so much surer.</summary>
    private const double Sure = 0.7, Surer = 0.1;

    public static ImmutableArray<Bar> Of(ImmutableArray<Bar> bars, ImmutableArray<PlannedSection> plan)
    {
        var read = bars.ToArray();
        foreach (var alike in plan.GroupBy(p => (p.Letter, Bars: p.EndBar - p.FirstBar)).Where(g => g.Count() > 1))
        {
            for (var b = 0; b < alike.Key.Bars; b++)
            {
                foreach (var same in alike.Select(p => p.FirstBar + b).GroupBy(bar => bars[bar].Meter).Where(g => g.Count() > 1))
                    Together(read, [.. same]);
            }
        }
        return [.. read];
    }

    private static void Together(Bar[] bars, int[] same)
    {
        var chords = Read([.. same.Select(b => bars[b].Chords)]);
        var strums = Read([.. same.Select(b => bars[b].Strums)]);
        for (var i = 0; i < same.Length; i++)
        {
            // A bar that is picked in one and strummed in another is played differently.
            var isStrummed = bars[same[i]].Strums.Length > 0;
            bars[same[i]] = bars[same[i]] with { Chords = chords[i], Strums = isStrummed && strums[i].Length > 0 ? strums[i] : bars[same[i]].Strums };
        }
    }

    /// <summary>One part of the same bar of several sections.</summary>
    private static ImmutableArray<Claim<T>>[] Read<T>(ImmutableArray<Claim<T>>[] bars)
    {
        var ways = bars.GroupBy(b => b, new SameWay<T>()).Select(g => (Way: Mean([.. g]), Sure: g.Sum(Sureness) / bars.Length)).ToArray();
        var usual = ways.MaxBy(w => w.Sure);
        return [.. bars.Select(own =>
        {
            var sure = Sureness(own);
            return sure < Sure && Sureness(usual.Way) >= sure + Surer ? usual.Way : ways.First(w => new SameWay<T>().Equals(w.Way, own)).Way;
        })];
    }

    private static ImmutableArray<Claim<T>> Mean<T>(ImmutableArray<Claim<T>>[] bars) => [.. bars[0].Select((claim, i) => claim with
    {
        Standing = bars.All(b => b[i].Standing.Kind == StandingKind.Heard)
            ? Standing.HeardToThePercent(bars.Average(b => b[i].Standing.Confidence ?? 0)) : claim.Standing,
    })];

    private static double Sureness<T>(ImmutableArray<Claim<T>> claims) =>
        claims.IsEmpty ? 0 : claims.Average(c => c.Standing.Kind == StandingKind.Heard ? c.Standing.Confidence ?? 0 : 1);

    /// <summary>The same things at the same places, however sure.</summary>
    private sealed class SameWay<T> : IEqualityComparer<ImmutableArray<Claim<T>>>
    {
        public bool Equals(ImmutableArray<Claim<T>> a, ImmutableArray<Claim<T>> b) =>
            a.Length == b.Length && a.Zip(b).All(p => p.First with { Standing = p.Second.Standing } == p.Second);

        public int GetHashCode(ImmutableArray<Claim<T>> claims) => claims.Length;
    }
}
