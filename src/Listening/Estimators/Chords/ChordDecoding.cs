namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// A hidden Markov model over chord states: a chord stays, or changes to any other by how usual that is. The best path is
/// Viterbi's; the chance of every state in every span comes from the forward–backward algorithm
/// (L. R. Rabiner, "A tutorial on hidden Markov models", Proceedings of the IEEE 77, 1989).
/// </summary>
internal sealed class ChordDecoding
{
    private readonly IReadOnlyList<double[]> fits;
    private readonly IReadOnlyList<double[]> priors;
    private readonly IReadOnlyList<double> change;

    /// <param name="fits">For each span, the log likelihood of each state.</param>
    /// <param name="priors">For each span, the chance of each state after a change; they sum to 1.</param>
    /// <param name="change">For each span, the chance of a change at its start.</param>
    public ChordDecoding(IReadOnlyList<double[]> fits, IReadOnlyList<double[]> priors, IReadOnlyList<double> change) =>
        (this.fits, this.priors, this.change) = (fits, priors, change);

    private int States => fits[0].Length;

    public int[] BestPath()
    {
        var best = new double[States];
        var from = new int[fits.Count][];
        for (var t = 0; t < fits.Count; t++)
        {
            var leader = t == 0 ? 0 : Array.IndexOf(best, best.Max());
            var (next, back) = (new double[States], new int[States]);
            for (var s = 0; s < States; s++)
            {
                var arriving = Math.Log(priors[t][s] * (t == 0 ? 1 : change[t]) + 1e-300) + best[leader];
                var staying = t == 0 ? double.NegativeInfinity : best[s] + Math.Log(1 - change[t]);
                back[s] = staying >= arriving ? s : leader;
                next[s] = Math.Max(staying, arriving) + fits[t][s];
            }
            (best, from[t]) = (next, back);
        }
        var path = new int[fits.Count];
        var at = Array.IndexOf(best, best.Max());
        for (var t = fits.Count - 1; t >= 0; t--)
            (path[t], at) = (at, from[t][at]);
        return path;
    }

    /// <summary>For each span, the chance of each state given everything heard.</summary>
    public double[][] Posteriors()
    {
        var likelihoods = fits.Select(f => Exponentials(f)).ToArray();
        var forward = new double[fits.Count][];
        for (var t = 0; t < fits.Count; t++)
            forward[t] = Normalised(s => likelihoods[t][s] * (t == 0 ? priors[0][s] : (1 - change[t]) * forward[t - 1][s] + change[t] * priors[t][s]));
        var backward = Enumerable.Repeat(1.0, States).ToArray();
        var posteriors = new double[fits.Count][];
        for (var t = fits.Count - 1; t >= 0; t--)
        {
            var later = backward;
            posteriors[t] = Normalised(s => forward[t][s] * later[s]);
            if (t == 0)
                break;
            var arriving = Enumerable.Range(0, States).Sum(s => priors[t][s] * likelihoods[t][s] * later[s]);
            backward = Normalised(s => (1 - change[t]) * likelihoods[t][s] * later[s] + change[t] * arriving);
        }
        return posteriors;
    }

    private static double[] Exponentials(double[] fits)
    {
        var top = fits.Max();
        return [.. fits.Select(f => Math.Exp(f - top))];
    }

    private double[] Normalised(Func<int, double> value)
    {
        var values = Enumerable.Range(0, States).Select(value).ToArray();
        var total = values.Sum();
        return [.. values.Select(v => v / total)];
    }
}
