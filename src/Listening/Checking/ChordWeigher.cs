using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs a claimed chord over its span against all others that are listened for, in the claimed beats: as a whole, and by its root, its bass, its
/// third and its seventh, each with the rest left open.
/// </summary>
internal sealed class ChordWeigher(GridChords grid)
{
    private const double Most = 15;

    public Finding Weigh(Chord claim, Seconds start, Seconds end, Key? key, Place where)
    {
        if (grid.Over(start, end, key) is not { } scores)
            return Finding.Weighed(ClaimKind.Chord, 0, where, claim.ToString(), "nothing is heard so far out");
        var (own, states) = (ClaimedChord.Of(claim), ChordVocabulary.States);
        var best = Enumerable.Range(0, scores.Length).Where(s => !own.Holds(s)).MaxBy(s => scores[s]);
        var whole = Enumerable.Range(0, scores.Length).Where(own.Holds).Max(s => scores[s]) - scores[best];
        var rival = ChordSpelling.Spelled(states[best], key).ToString();
        return Finding.Weighed(ClaimKind.Chord, Math.Clamp(whole, -Most, Most), where, claim.ToString(), $"{rival} heard", rival) with
        {
            Rival = new(rival, -whole),
            Clues = claim.IsNone ? ImmutableDictionary<string, double>.Empty : Aspects(own, scores),
        };
    }

    /// <summary>The log-odds of the claim's root among roots, of its bass among basses, and on its root of its third and its seventh.</summary>
    private static ImmutableDictionary<string, double> Aspects(ClaimedChord own, double[] scores)
    {
        var states = ChordVocabulary.States;
        var first = Enumerable.Range(0, scores.Length).First(own.Holds);
        double Odds(Func<ChordState, bool> among, Func<ChordState, int> of, int claimed)
        {
            var sums = Enumerable.Range(0, scores.Length).Where(s => states[s].Quality is not null && among(states[s])).GroupBy(s => of(states[s]))
                .ToDictionary(g => g.Key, g => Sum(g.Select(s => scores[s])));
            var others = sums.Where(s => s.Key != claimed).Select(s => s.Value).DefaultIfEmpty(-Most).Max();
            return Math.Clamp(sums.GetValueOrDefault(claimed, -Most) - others, -Most, Most);
        }
        bool OnRoot(ChordState s) => s.Root == own.Root;
        return new Dictionary<string, double>
        {
            ["root"] = Odds(_ => true, s => s.Root, own.Root),
            ["bass"] = own.HasBass ? Odds(_ => true, s => s.BassClass, own.Bass) : 0,
            ["bass on root"] = own.HasBass ? Odds(OnRoot, s => s.BassClass, own.Bass) : 0,
            ["third"] = Odds(OnRoot, ClaimedChord.ThirdOf, ClaimedChord.ThirdOf(states[first])),
            ["seventh"] = Odds(OnRoot, ClaimedChord.SeventhOf, ClaimedChord.SeventhOf(states[first])),
        }.ToImmutableDictionary();
    }

    /// <summary>The log of a sum of numbers given by their logs.</summary>
    private static double Sum(IEnumerable<double> logs)
    {
        var values = logs.ToArray();
        var most = values.Max();
        return most + Math.Log(values.Sum(v => Math.Exp(v - most)));
    }
}
