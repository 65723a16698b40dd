namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Weighs candidates against each other by small networks, fitted on made pieces (training/Fretting) so that the softmax of what one says is
/// the chance of each where any tuning is as usual as another (a conditional logit, McFadden 1974, with a hidden layer). One knows the hand alone. Where
/// something is known of the strings, two opinions are pooled as their weighted product (Genest and Zidek, Statistical Science 1, 1986): the first
/// with the likelihood of the strings beside it, and that of a network which sees both.
/// </summary>
internal sealed class TuningWeigher(SmallNetwork byHand, SmallNetwork byStrings)
{
    private const double Hopeless = -30;

    /// <summary>A guitar sounds nothing below its lowest string; listening and a bass do. How much that weighs beside the network is our own
    /// judgement.</summary>
    private const double TooLow = 40, MostTooLow = 4;

    private static readonly Lazy<TuningWeigher> Fitted = new(() => new(
        SmallNetwork.Shipped("Estimators.Tunings.tuning-weights.txt", TuningFit.Names.Length),
        SmallNetwork.Shipped("Estimators.Tunings.tuning-string-weights.txt", TuningFit.Names.Length + StringFit.Names.Length)));

    public static TuningWeigher Shipped => Fitted.Value;

    /// <summary>Logs of likelihoods, up to a constant.</summary>
    /// <param name="strings">Of each; null for who wasn't asked, and for all where nothing is known.</param>
    public double[] Weigh(IReadOnlyList<TuningFit> fits, IReadOnlyList<StringFit?> strings)
    {
        var (hands, seen) = (Hands(fits), strings.Any(s => s is not null) ? StringFit.Against(strings) : null);
        return [.. fits.Select((fit, i) => Weigh(hands[i], seen?[i]) - Math.Min(MostTooLow, TooLow * fit.TooLow))];
    }

    /// <summary>What a network is shown of each candidate: logs of chances count from the best candidate's.</summary>
    public static float[][] Against(IReadOnlyList<TuningFit> fits, IReadOnlyList<StringFit?> strings) =>
        [.. Hands(fits).Zip(StringFit.Against(strings), (hand, s) => (float[])[.. hand, .. s])];

    private double Weigh(float[] hand, float[]? strings)
    {
        var (model, alone) = (TuningModel.Shipped, byHand.Weigh([.. hand])[0]);
        if (strings is null)
            return alone;
        var apart = alone + model.Stiffness * strings[0] + model.InHand * strings[2];
        return (1 - model.BothShare) * apart + model.BothShare * byStrings.Weigh([.. hand, .. strings])[0];
    }

    private static float[][] Hands(IReadOnlyList<TuningFit> fits)
    {
        var best = Enumerable.Range(0, TuningFit.LogChances).Select(k => fits.Max(f => f.Features[k])).ToArray();
        return [.. fits.Select(f => f.Features.Select((value, k) => (float)(k < best.Length ? Math.Max(Hopeless, value - best[k]) : value)).ToArray())];
    }
}
