using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Ranks guitar tunings and capos by how well a player could have made the notes with them: which notes open strings give,
/// which lie low on the neck, which groups struck together fit a hand, and what players usually do.
/// Several often fit; then the confidences are near each other, and that is the answer.
/// </summary>
public sealed class TuningEstimator(TuningOptions? options = null)
{
    private readonly TuningOptions options = options ?? new();

    public Ranked<HeardTuning> Estimate(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, Key key)
    {
        var evidence = TuningEvidence.Of(notes, chords, key, options);
        var weighed = TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar)
            .SelectMany(_ => Enumerable.Range(0, options.HighestCapo + 1), (tuning, capo) => (tuning, capo))
            .AsParallel().AsOrdered()
            .Select(c => new TuningWeighing(evidence, c.tuning, c.capo, options))
            .ToList();
        var top = weighed.Max(w => w.Score);
        var total = weighed.Sum(w => Math.Exp(w.Score - top));
        return new([.. weighed.OrderByDescending(w => w.Score).Take(options.Candidates).Select(w => w.WithConfidence(Math.Exp(w.Score - top) / total))]);
    }
}
