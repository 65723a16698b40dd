using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Reading.Lattices;

namespace Harkbook.Listening.Reading.Harmony;

/// <summary>
/// Keys and chords of all spans as one lattice of 24 keys × all chords: what the spans say of chords and of keys, which chords are usual in a key,
/// and how readily either changes. What a person claimed is the only thing that may be there.
/// </summary>
internal sealed class HarmonyModel : ILatticeModel
{
    /// <summary>The log score of what a claim rules out.</summary>
    public const double Never = -1e6;

    private static readonly int Chords = ChordVocabulary.States.Length;

    private readonly WeighedChords weighed;
    private readonly double[][] fits;
    private readonly double[][] keys;
    private readonly double[][] priors;
    private readonly double[,] costs;
    private readonly int keyEvery;

    public HarmonyModel(WeighedChords weighed, HarmonyWeights weights, HeldHarmony held)
    {
        this.weighed = weighed;
        fits = [.. weighed.Fits.Select(row => Array.ConvertAll(row, f => f * weights.Chords.Evidence))];
        held.HoldChords(fits);
        keys = new KeyWords(weighed, fits, weights.Keys).Scores;
        held.HoldKeys(keys);
        var prior = new KeyPrior(weights.Chords.Usual);
        priors = [.. KeyCandidate.All.Select(k => Array.ConvertAll(prior.In(held.KeyOf(k)), Math.Log))];
        costs = Costs(weights.Keys.Change);
        keyEvery = weighed.Spans.Any(s => s.Place == SpanPlace.Downbeat && s.Start.Value > 0) ? 0 : 4;
    }

    public int Steps => weighed.Spans.Count;

    public int States(int step) => KeyCandidate.Count * Chords;

    public static (int Key, int Chord) Of(int state) => Math.DivRem(state, Chords);

    public void Score(int step, Span<double> into)
    {
        for (var k = 0; k < KeyCandidate.Count; k++)
            ScoreChords(step, k, into.Slice(k * Chords, Chords));
    }

    public Transitions Into(int step) => new HarmonyTransitions(weighed.Change[step], priors, KeyMayChange(step) ? costs : null);

    /// <summary>Log scores of all chords at a step in a key, the key's own included.</summary>
    public void ScoreChords(int step, int key, Span<double> into)
    {
        TensorPrimitives.Add(fits[step], keys[step][key], into);
        if (step == 0)
            TensorPrimitives.Add(into, priors[key], into);
    }

    /// <summary>How chords are reached from those of the step before, in a key.</summary>
    public StayOrChange ChordsInto(int step, int key) => StayOrChange.ByChance(weighed.Change[step], priors[key]);

    /// <summary>What it costs that one key follows another.</summary>
    public double KeyCost(int from, int to) => costs[from, to];

    /// <summary>At bar lines; without bars at every fourth span.</summary>
    private bool KeyMayChange(int step) => keyEvery > 0 ? step % keyEvery == 0 : weighed.Spans[step].Place == SpanPlace.Downbeat;

    /// <summary>Relative and parallel keys share their notes or their centre, so a change between them costs double.</summary>
    private static double[,] Costs(double change)
    {
        var costs = new double[KeyCandidate.Count, KeyCandidate.Count];
        foreach (var from in KeyCandidate.All)
        {
            foreach (var to in KeyCandidate.All)
                costs[from.Index, to.Index] = from == to ? 0 : from.Tonic == to.Tonic || from.IsRelativeOf(to) ? 2 * change : change;
        }
        return costs;
    }
}
