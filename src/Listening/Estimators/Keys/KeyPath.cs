using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>
/// The likeliest row of keys over slices when a change costs something (Viterbi decoding of a Bayesian model after
/// D. Temperley, "Music and Probability", 2007, chapter 4). Relative and parallel keys share a centre or their notes,
/// so a change between them costs double.
/// </summary>
internal static class KeyPath
{
    private const double Floor = 0.02;

    /// <param name="fits">For each slice, how well each key fits it (natural log units).</param>
    /// <returns>A <see cref="KeyCandidate.Index"/> for each slice.</returns>
    public static int[] Decode(IReadOnlyList<double[]> fits, KeyOptions options)
    {
        var from = new int[fits.Count, KeyCandidate.Count];
        var best = new double[KeyCandidate.Count];
        for (var s = 0; s < fits.Count; s++)
        {
            var next = new double[KeyCandidate.Count];
            for (var k = 0; k < next.Length; k++)
            {
                var previous = Enumerable.Range(0, best.Length).MaxBy(j => best[j] - Cost(new(j), new(k), options));
                from[s, k] = previous;
                next[k] = best[previous] - Cost(new(previous), new(k), options) + fits[s][k];
            }
            best = next;
        }
        var path = new int[fits.Count];
        var at = Array.IndexOf(best, best.Max());
        for (var s = fits.Count - 1; s >= 0; s--)
            (path[s], at) = (at, from[s, at]);
        return path;
    }

    private static double Cost(KeyCandidate from, KeyCandidate to, KeyOptions options) =>
        from == to ? 0
        : from.Tonic == to.Tonic || from.IsRelativeOf(to) ? 2 * options.ChangePenalty
        : options.ChangePenalty;

    /// <summary>How well each key fits a slice by how much of it each pitch class takes.</summary>
    public static double[] Fits(double[] amounts, KeyOptions options) => [.. KeyCandidate.All.Select(k => Fit(amounts, k, options))];

    private static double Fit(double[] amounts, KeyCandidate key, KeyOptions options)
    {
        var total = amounts.Sum();
        if (total < 0.1)
            return 0;
        var profile = key.IsMinor ? KeyProfiles.AlbrechtShanahan.Minor : KeyProfiles.AlbrechtShanahan.Major;
        return options.NotesPerSlice * Enumerable.Range(0, 12)
            .Sum(pc => amounts[pc] / total * Math.Log((profile[(pc - key.Tonic + 12) % 12] + Floor) / (1 + 12 * Floor)));
    }
}
