using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>What speaks for each kind of instrument: the network's word, where a phrase lies, notes together, and whether a harmonica could play it.</summary>
internal static class LineKinds
{
    /// <summary>
    /// How the network hears each of <see cref="LineNetwork.Kinds"/> (rows), as shares of the same kinds: rounded from made pieces with instruments that it was
    /// not trained on, and drawn a little together, since there are more kinds of voices and fiddles than those (docs/listening.md).
    /// </summary>
    private static readonly double[][] HeardAs = [[0.85, 0.06, 0.02, 0.07], [0.20, 0.42, 0.26, 0.12], [0.07, 0.10, 0.79, 0.04], [0.58, 0.05, 0.03, 0.34]];

    /// <summary>How often each kind is met with a guitar, and about which semitone its lines lie: our judgement of common practice.</summary>
    private static readonly (double Usual, double Middle, double Spread)[] Habits = [(0.4, 72, 7), (0.4, 60, 8), (0.12, 77, 7), (0.08, 70, 8)];

    /// <summary>
    /// The semitones that each kind reaches: harmonicas from the G harp's first hole, singers to a soprano's high C, whistles and flutes from middle C,
    /// fiddles from their open low string (common practice). Lower harps and bows exist.
    /// </summary>
    private static readonly (int Lowest, int Highest)[] Reach = [(55, 102), (36, 84), (60, 102), (55, 102)];

    /// <summary>What notes beyond its reach speak against a kind (nepers).</summary>
    private const double AgainstBeyond = 5;

    /// <summary>What notes that sound together speak against each kind (nepers).</summary>
    private static readonly double[] AgainstTogether = [0, 3, 3, 1];

    /// <summary>How many times a phrase's word counts, and how much where it lies: in full from a second on, since sound of one instrument is alike.</summary>
    private const double WordWeight = 4, PlaceWeight = 0.5;

    /// <summary>How likely a phrase sounds unlike its instrument: no phrase speaks more clearly than that against a kind.</summary>
    private const double Odd = 0.005;

    /// <summary>The share of breaths or notes that tells nothing; how much more of them tells, and at most (nepers).</summary>
    private const double Few = 0.06, Telling = 20, Most = 3;

    public static double Usual(int kind) => Habits[kind].Usual;

    /// <summary>How well a phrase fits each kind, in nepers.</summary>
    public static double[] Fit(LinePhrase phrase)
    {
        var length = Math.Min(1, phrase.Frames * LineEstimator.Hop.Value);
        var together = phrase.Together();
        double[] fits = [.. Habits.Select((h, k) => length * (WordWeight * Word(phrase.Word, k) + PlaceWeight * Place(phrase.Pitch, h.Middle, h.Spread))
            - AgainstTogether[k] * together - AgainstBeyond * phrase.Beyond(Reach[k].Lowest, Reach[k].Highest))];
        var best = fits.Max();
        return [.. fits.Select(f => Math.Log(Math.Exp(f - best) + Odd))];
    }

    /// <summary>How far a harmonica can play all these phrases, in nepers: double notes on one breath speak for it, others and notes that it hasn't got against it.</summary>
    public static double OnHarmonica(IEnumerable<LinePhrase> phrases, ImmutableArray<HeardKey> keys)
    {
        var fit = BreathFit.Of(LineNotes.Of(phrases.SelectMany(p => p.Stretches)), keys);
        return Speaks(fit.OnOneBreath - Few) - Speaks(fit.NotOneBreath - Few) - Speaks(fit.Missing - Few);
    }

    /// <summary>The log chance of a phrase's word, as so many draws from how the kind is heard.</summary>
    private static double Word(KindShares word, int kind) => Enumerable.Range(0, HeardAs.Length).Sum(h => word[h] / (word.Sum + 1e-9) * Math.Log(HeardAs[kind][h]));

    private static double Place(double pitch, double middle, double spread) => -Math.Log(spread) - 0.5 * Math.Pow((pitch - middle) / spread, 2);

    private static double Speaks(double share) => Math.Clamp(Telling * share, 0, Most);
}
