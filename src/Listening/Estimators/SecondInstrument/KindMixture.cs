using System.Collections.Immutable;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>A set of kinds as the explanation of all phrases: how well it explains them and whose each is (Dempster, Laird and Rubin 1977).</summary>
/// <param name="Kinds">Indices of <see cref="LineNetwork.Kinds"/>.</param>
/// <param name="Owners">The kind of each phrase.</param>
/// <param name="Score">In nepers.</param>
internal sealed record KindMixture(ImmutableArray<int> Kinds, ImmutableArray<int> Owners, double Score)
{
    private const int Rounds = 5;

    /// <summary>How long each kind must sound beside another, in seconds.</summary>
    private const double Shortest = 1.5;

    private static readonly LineModel Model = LineModel.Shipped;

    /// <param name="fits">Of each phrase to each of all kinds, in nepers.</param>
    public static KindMixture Of(ImmutableArray<int> kinds, IReadOnlyList<LinePhrase> phrases, double[][] fits, ImmutableArray<HeardKey> keys)
    {
        double[] shares = [.. kinds.Select(LineKinds.Usual)];
        var (explained, whose) = (0.0, Array.Empty<double[]>());
        for (var round = 0; round < Rounds; round++)
        {
            (explained, whose) = Divide(kinds, shares, fits);
            shares = [.. kinds.Select((_, i) => 0.001 + whose.Select((w, p) => w[i] * phrases[p].Frames).Sum() * LineEstimator.Hop.Value)];
        }
        ImmutableArray<int> owners = [.. whose.Select(w => kinds[Array.IndexOf(w, w.Max())])];
        if (kinds.Any(k => !owners.Contains(k)) || (kinds.Length > 1 && shares.Min() < Shortest))
            return new(kinds, owners, double.NegativeInfinity);
        var harmonica = Array.IndexOf(LineNetwork.Kinds, LineKind.Harmonica);
        var played = owners.Contains(harmonica) ? LineKinds.OnHarmonica(phrases.Where((_, p) => owners[p] == harmonica), keys) : 0;
        return new(kinds, owners, explained + played + kinds.Sum(k => Math.Log(LineKinds.Usual(k)))
            - (Model.Price + Model.PricePerPhrase * phrases.Count) * (kinds.Length - 1));
    }

    private static (double Explained, double[][] Whose) Divide(ImmutableArray<int> kinds, double[] shares, double[][] fits)
    {
        var (explained, total) = (0.0, shares.Sum());
        var whose = fits.Select(fit =>
        {
            var logs = kinds.Select((k, i) => Math.Log(shares[i] / total) + fit[k]).ToArray();
            explained += LogSumOf.Of(logs);
            return Softmax.Of(logs);
        }).ToArray();
        return (explained, whose);
    }
}
