using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>
/// Chords over beats: each chord state is weighed against the notes that sound in each beat, then the likeliest row of chords is
/// decoded with a leaning to stay, to change on downbeats, and to stay in the key. Simple names win unless the notes say more.
/// </summary>
public sealed class ChordEstimator
{
    private readonly IChordWeigher weigher;
    private readonly ChordOptions options;

    private ChordEstimator(IChordWeigher weigher, ChordOptions options) => (this.weigher, this.options) = (weigher, options);

    /// <summary>By the trained chord network.</summary>
    public static ChordEstimator Trained(ChordOptions? options = null) => new(new NetworkChordWeigher(), options ?? ChordOptions.ForNetwork);

    /// <summary>By rules about which notes a chord should hold.</summary>
    public static ChordEstimator Classical(ChordOptions? options = null) => new(new TemplateChordWeigher(), options ?? new());

    /// <param name="evidence">How strongly each pitch sounds.</param>
    /// <param name="beats">Empty where they are unknown.</param>
    /// <param name="keys">Empty where they are unknown; they lean the choice and spell the names.</param>
    /// <returns>Spans without gaps over the whole recording.</returns>
    public ImmutableArray<HeardChord> Estimate(
        NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats, ImmutableArray<HeardKey> keys, CancellationToken ct = default) =>
        Estimate(Weigh(evidence, beats, ct), keys);

    /// <summary>The first half of the work, which keys also rest on.</summary>
    internal WeighedChords Weigh(NotePosteriorgram evidence, ImmutableArray<HeardBeat> beats, CancellationToken ct) =>
        evidence.Frames == 0 ? new([], [], [], null) : weigher.Weigh(evidence, ChordSpan.Of(evidence, beats, options), options, ct);

    internal ImmutableArray<HeardChord> Estimate(WeighedChords weighed, ImmutableArray<HeardKey> keys)
    {
        if (weighed.Spans.Count == 0)
            return [];
        var prior = new KeyPrior(options.PriorWeight);
        var priors = weighed.Spans.Select(s => KeyPrior.KeyAt(keys, s.Start) is { } key ? prior.In(key) : prior.Without).ToList();
        var path = new ChordDecoding(Scaled(weighed.Fits, options.EvidenceWeight), priors, weighed.Change).BestPath();
        var posteriors = new ChordDecoding(Scaled(weighed.Fits, options.SurenessWeight), priors, weighed.Change).Posteriors();
        return Gathered(weighed.Spans, path, posteriors, keys);
    }

    private static double[][] Scaled(double[][] fits, double weight) => [.. fits.Select(row => Array.ConvertAll(row, f => f * weight))];

    private ImmutableArray<HeardChord> Gathered(IReadOnlyList<ChordSpan> spans, int[] path, double[][] posteriors, ImmutableArray<HeardKey> keys)
    {
        var chords = ImmutableArray.CreateBuilder<HeardChord>();
        for (int from = 0, to; from < path.Length; from = to)
        {
            to = from + 1;
            while (to < path.Length && path[to] == path[from])
                to++;
            var key = KeyPrior.KeyAt(keys, spans[from].Start);
            chords.Add(new(spans[from].Start, spans[to - 1].End, Candidates(posteriors.AsSpan(from..to), path[from], key)));
        }
        return chords.ToImmutable();
    }

    private Distribution<Chord> Candidates(ReadOnlySpan<double[]> posteriors, int chosen, Key? key)
    {
        var means = new double[ChordVocabulary.States.Length];
        foreach (var row in posteriors)
        {
            for (var s = 0; s < means.Length; s++)
                means[s] += row[s] / posteriors.Length;
        }
        // The path's own choice comes first even where another state has the larger mean over the span.
        means[chosen] = Math.Max(means[chosen], means.Max());
        var ranked = new Distribution<Chord>([.. Enumerable.Range(0, means.Length)
            .OrderByDescending(s => means[s]).ThenByDescending(s => s == chosen)
            .Take(options.Candidates)
            .Where(s => s == chosen || means[s] > 0.005)
            .Select(s => new Candidate<Chord>(ChordSpelling.Spelled(ChordVocabulary.States[s], key), means[s], null))]);
        return options.Sureness is { } sureness ? sureness.Of(ranked) : ranked;
    }
}
