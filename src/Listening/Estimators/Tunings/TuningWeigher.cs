namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Weighs candidates against each other by a small network, fitted on made pieces (training/Fretting) so that the softmax of what it says is
/// the chance of each where any tuning is as usual as another (a conditional logit, McFadden 1974, with a hidden layer).
/// </summary>
internal sealed class TuningWeigher(SmallNetwork network)
{
    private const double Hopeless = -30;

    /// <summary>A guitar sounds nothing below its lowest string; listening and a bass do. How much that weighs beside the network is our own
    /// judgement.</summary>
    private const double TooLow = 40, MostTooLow = 4;

    private static readonly Lazy<TuningWeigher> Fitted = new(() => new(
        SmallNetwork.Shipped("Estimators.Tunings.tuning-weights.txt", TuningFit.Names.Length + StringFit.Names.Length)));

    public static TuningWeigher Shipped => Fitted.Value;

    /// <summary>Logs of likelihoods, up to a constant.</summary>
    /// <param name="strings">Of each; null for who wasn't asked, and for all where nothing is known.</param>
    public double[] Weigh(IReadOnlyList<TuningFit> fits, IReadOnlyList<StringFit?> strings) =>
        [.. Against(fits, strings).Select((row, i) => network.Weigh(row)[0] - Math.Min(MostTooLow, TooLow * fits[i].TooLow))];

    /// <summary>What the network is shown of each candidate: logs of chances count from the best candidate's.</summary>
    public static float[][] Against(IReadOnlyList<TuningFit> fits, IReadOnlyList<StringFit?> strings) => [.. ByHand(fits).Zip(StringFit.Against(strings), (h, s) => (float[])[.. h, .. s])];

    private static float[][] ByHand(IReadOnlyList<TuningFit> fits)
    {
        var best = Enumerable.Range(0, TuningFit.LogChances).Select(k => fits.Max(f => f.Features[k])).ToArray();
        return [.. fits.Select(f => f.Features.Select((value, k) => (float)(k < best.Length ? Math.Max(Hopeless, value - best[k]) : value)).ToArray())];
    }
}
