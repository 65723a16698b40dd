using System.Collections.Immutable;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Ranks guitar tunings and capos by how well a player could have made the notes with them, and by how usual they are.
/// For each set of open strings a search over time puts the notes on the neck; its effort, the notes that no string takes, those that ring open,
/// the floor of all pitches, key and chords are weighed together. Tunings whose strings sound alike under different capos differ by habit only.
/// </summary>
public sealed class TuningEstimator(TuningOptions? options = null)
{
    private readonly TuningOptions options = options ?? new();

    public Ranked<HeardTuning> Estimate(ImmutableArray<HeardNote> notes, ImmutableArray<HeardChord> chords, Key key, CancellationToken ct = default)
    {
        var evidence = new TuningEvidence(notes, chords, key, options);
        var fits = Guitars(options).GroupBy(g => string.Join(' ', Open(g))).AsParallel().AsOrdered().WithCancellation(ct)
            .Select(g => (Guitars: g.ToList(), Fit: new TuningFit(evidence, g.First().Named.Tuning, g.First().Capo)))
            .ToList();
        var weighed = fits.SelectMany(f => f.Guitars, (f, g) => (f.Fit, Guitar: g, Score: TuningWeights.LogLikelihood(f.Fit) + LogHabit(g))).ToList();
        var top = weighed.Max(w => w.Score);
        var total = weighed.Sum(w => Math.Exp(w.Score - top));
        return new([.. weighed.OrderByDescending(w => w.Score).Take(options.Candidates)
            .Select(w => new Candidate<HeardTuning>(
                new(w.Guitar.Named.Tuning, w.Guitar.Capo, w.Guitar.Named.Name),
                Math.Exp(w.Score - top) / total,
                new TuningReasons(evidence, w.Fit, [.. fits.First(f => f.Fit == w.Fit).Guitars.Where(g => g != w.Guitar)]).ToString()))]);
    }

    internal static IEnumerable<Guitar> Guitars(TuningOptions options) =>
        TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar)
            .SelectMany(_ => Enumerable.Range(0, options.HighestCapo + 1), (tuning, capo) => new Guitar(tuning, Capo.At(capo)));

    internal static IEnumerable<int> Open(Guitar guitar) => guitar.Named.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret);

    private double LogHabit(Guitar guitar) =>
        options.TuningHabit * Math.Log(TuningHabits.ShareOf(guitar.Named)) + options.CapoHabit * Math.Log(TuningHabits.ShareOfCapo(guitar.Capo.Fret));
}

/// <summary>A tuning with a capo.</summary>
internal sealed record Guitar(NamedTuning Named, Capo Capo)
{
    public override string ToString() => Capo.Fret == 0 ? Named.Name : $"{Named.Name} with the capo at {Capo.Fret}";
}
