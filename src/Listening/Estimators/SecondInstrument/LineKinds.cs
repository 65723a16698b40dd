using System.Collections.Immutable;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>What speaks for each kind of instrument: the network's word, where a phrase lies, notes together, and whether a harmonica could play it.</summary>
internal static class LineKinds
{
    private static readonly LineModel Model = LineModel.Shipped;

    private static readonly LineModel.OfKind[] Kinds = [.. LineNetwork.Kinds.Select(k => Model.Kinds[k])];

    public static double Usual(int kind) => Kinds[kind].Usual;

    /// <summary>How well a phrase fits each kind, in nepers.</summary>
    public static double[] Fit(LinePhrase phrase)
    {
        var length = Math.Min(1, phrase.Frames * LineEstimator.Hop.Value);
        var together = phrase.Together();
        double[] fits = [.. Kinds.Select(k => length * (Model.WordWeight * k.Word(phrase.Word) + Model.PlaceWeight * k.Place(phrase.Pitch))
            - k.AgainstTogether * together - Model.AgainstBeyond * phrase.Beyond(k.Lowest, k.Highest))];
        var best = fits.Max();
        return [.. fits.Select(f => Math.Log(Math.Exp(f - best) + Model.Odd))];
    }

    /// <summary>
    /// How far a harmonica can play all these phrases, in nepers: double notes on one breath speak for it, others and notes that it hasn't got against it.
    /// </summary>
    public static double OnHarmonica(IEnumerable<LinePhrase> phrases, ImmutableArray<HeardKey> keys)
    {
        var fit = BreathFit.Of(LineNotes.Of(phrases.SelectMany(p => p.Stretches)), keys);
        return Speaks(fit.OnOneBreath - Model.Few) - Speaks(fit.NotOneBreath - Model.Few) - Speaks(fit.Missing - Model.Few);
    }

    private static double Speaks(double share) => Math.Clamp(Model.Telling * share, 0, Model.Most);
}
