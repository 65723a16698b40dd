using System.Collections.Immutable;

namespace Harkbook.Listening.Proposing.Hands;

/// <summary>
/// What is strummed in bars of one meter and grid: a pattern of one bar or a few, which the bars keep but for some places. A hierarchical model: each place of
/// the pattern has a state by the habits of strumming, each bar has that state in most places, and the sound speaks for each bar's own. How many bars the
/// pattern has is what makes all of it likeliest, the patterns summed over (so a longer one must earn its places; D. MacKay, "Information Theory, Inference,
/// and Learning Algorithms", 2003, chapter 28).
/// </summary>
internal sealed class StrokePattern(PlayingModel model)
{
    private const int States = 4;

    private static readonly int[] Lengths = [1, 2, 4];

    /// <summary>For each bar and place what is there and how sure that is.</summary>
    /// <param name="evidence">By bar and place, for each state its log-likelihood.</param>
    /// <param name="onBeat">Of each place, whether the hand goes down there as it swings, and whether a beat starts.</param>
    public (StrokeState State, double Sure)[][] Read(IReadOnlyList<double[][]> evidence, ImmutableArray<(bool Down, bool Beat)> onBeat)
    {
        var ways = Lengths.Where(l => l == 1 || evidence.Count >= 2 * l).Select(l => PatternOf(evidence, onBeat, l)).ToArray();
        var best = ways.MaxBy(w => w.LogLikelihood);
        return [.. evidence.Select((bar, b) => bar.Select((place, p) => Of(place, best.Pattern[b % best.Pattern.Length][p])).ToArray())];
    }

    private (int[][] Pattern, double LogLikelihood) PatternOf(IReadOnlyList<double[][]> evidence, ImmutableArray<(bool Down, bool Beat)> onBeat, int length)
    {
        var (pattern, sum) = (new int[length][], 0.0);
        for (var phase = 0; phase < length; phase++)
        {
            pattern[phase] = new int[onBeat.Length];
            for (var p = 0; p < onBeat.Length; p++)
            {
                var scores = Prior(onBeat[p]);
                for (var b = phase; b < evidence.Count; b += length)
                {
                    for (var s = 0; s < States; s++)
                        scores[s] += LogSum(Kept(evidence[b][p], s));
                }
                pattern[phase][p] = Array.IndexOf(scores, scores.Max());
                sum += LogSum(scores);
            }
        }
        return (pattern, sum);
    }

    private (StrokeState, double) Of(double[] evidence, int pattern)
    {
        var posterior = Softmax.Of(Kept(evidence, pattern));
        var best = Array.IndexOf(posterior, posterior.Max());
        return ((StrokeState)best, posterior[best]);
    }

    /// <summary>The evidence of a bar's states under the pattern's.</summary>
    private double[] Kept(double[] evidence, int pattern) =>
        [.. evidence.Select((e, s) => e + Math.Log(s == pattern ? model.Kept : (1 - model.Kept) / (States - 1)))];

    private double[] Prior((bool Down, bool Beat) place)
    {
        var often = model.Often[place.Beat ? 0 : place.Down ? 1 : 2];
        var down = place.Down ? model.Pendulum : 1 - model.Pendulum;
        var open = often * (1 - model.MutedShare);
        return [Math.Log(1 - often), Math.Log(open * down), Math.Log(open * (1 - down)), Math.Log(often * model.MutedShare)];
    }

    private static double LogSum(double[] logs)
    {
        var most = logs.Max();
        return most + Math.Log(logs.Sum(l => Math.Exp(l - most)));
    }
}
