using System.Collections.Immutable;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Estimators.Tunings;

/// <summary>
/// Ranks guitar tunings and capos by how well a player could have made the notes with them, and by how usual they are.
/// What was struck together and what rang together is weighed by the hands that could hold it, beside which pitches are open strings', how long
/// those ring, the floor of all pitches and the key. Tunings whose strings sound alike under different capos differ by habit only.
/// Around the best of the catalogue every single string is tried elsewhere.
/// </summary>
public sealed class TuningEstimator(TuningOptions? options = null)
{
    /// <summary>Guitars so far behind the best by hand and habit, in natural logs, aren't asked for their strings.</summary>
    private const double Hopeless = 9;

    private readonly TuningOptions options = options ?? new();

    /// <param name="notes">Rising by onset.</param>
    public Distribution<HeardTuning> Estimate(ImmutableArray<HeardNote> notes, Key key, CancellationToken ct = default) =>
        Estimate(notes, key, null, null, StiffNotes.None, ct);

    /// <param name="tuning">The tuning that a person claims: only its capos are then weighed.</param>
    /// <param name="capo">The capo that a person claims: only tunings under it are then weighed.</param>
    /// <param name="stiff">What is known of the notes' strings.</param>
    internal Distribution<HeardTuning> Estimate(ImmutableArray<HeardNote> notes, Key key, Tuning? tuning, Capo? capo, StiffNotes stiff, CancellationToken ct)
    {
        if (tuning is not null && capo is not null)
            return Told.Only(new HeardTuning(tuning, capo.Value, TuningCatalogue.NameOf(tuning)));
        var evidence = new TuningEvidence(notes, key, options, stiff);
        var known = Fits(evidence, Guitars(options, tuning, capo), ct);
        var near = evidence.TotalWeight > 0 && tuning is null
            ? Weighed(evidence, known).OrderByDescending(w => w.Score).DistinctBy(w => w.Fit).Take(options.MovedFrom)
            .SelectMany(w => FreeTunings.Near(w.Guitar, key.Centre))
            : [];
        var weighed = Weighed(evidence, [.. known, .. Fits(evidence, near, ct)]);
        var posteriors = Softmax.Of([.. weighed.Select(w => w.Score)]);
        return TuningModel.Shipped.Sureness.Of(new Distribution<HeardTuning>([.. weighed.Zip(posteriors, (w, p) => (w.Guitar, w.Fit, w.Alike, Posterior: p))
            .OrderByDescending(w => w.Posterior).Take(options.Candidates)
            .Select(w => new Candidate<HeardTuning>(
                new(w.Guitar.Named.Tuning, w.Guitar.Capo, w.Guitar.Moved is null ? w.Guitar.Named.Name : null),
                w.Posterior,
                new TuningReasons(evidence, w.Fit, w.Guitar, [.. w.Alike.Where(g => g != w.Guitar)]).ToString()))]));
    }

    internal static IEnumerable<Guitar> Guitars(TuningOptions options, Tuning? told = null, Capo? capo = null)
    {
        NamedTuning[] tunings = told is null ? [.. TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar)]
            : [TuningCatalogue.All.FirstOrDefault(t => t.Tuning == told) ?? new(TuningCatalogue.Guitar, told.ToString(), [], told, "as told")];
        Capo[] capos = capo is { } known ? [known] : [.. Enumerable.Range(0, options.HighestCapo + 1).Select(fret => Capo.At(fret))];
        return tunings.SelectMany(_ => capos, (tuning, at) => new Guitar(tuning, at));
    }

    internal static IEnumerable<int> Open(Guitar guitar) => guitar.Named.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret);

    private static List<(TuningFit Fit, List<Guitar> Guitars)> Fits(TuningEvidence evidence, IEnumerable<Guitar> guitars, CancellationToken ct) =>
        [.. guitars.GroupBy(g => string.Join(' ', Open(g))).Select(g => g.ToList())
            .AsParallel().AsOrdered().WithCancellation(ct).Select(g => (new TuningFit(evidence, [.. Open(g[0])]), g))];

    private List<(Guitar Guitar, TuningFit Fit, List<Guitar> Alike, double Score)> Weighed(
        TuningEvidence evidence, List<(TuningFit Fit, List<Guitar> Guitars)> fits)
    {
        var scores = TuningWeigher.Shipped.Weigh([.. fits.Select(f => f.Fit)]);
        var weighed = fits.SelectMany((f, i) => f.Guitars.Select(g => (Guitar: g, f.Fit, f.Guitars, Score: scores[i] + LogHabit(g, f.Fit)))).ToList();
        if (evidence.Telling.IsEmpty)
            return weighed;
        var hopeful = weighed.Max(w => w.Score) - Hopeless;
        var strings = weighed.AsParallel().AsOrdered()
            .Select(w => w.Score < hopeful ? double.NaN : StringsOf(evidence, w.Guitar).Weigh(options.Stiffness)).ToArray();
        var least = strings.Where(s => !double.IsNaN(s)).Min();
        return [.. weighed.Zip(strings, (w, s) => (w.Guitar, w.Fit, w.Guitars, w.Score + (double.IsNaN(s) ? least : s)))];
    }

    /// <summary>What stiffness says of a guitar: see <see cref="StringFit"/>.</summary>
    internal static StringFit StringsOf(TuningEvidence evidence, Guitar guitar, StringModel? model = null) => new(evidence, guitar, model);

    private double LogHabit(Guitar guitar, TuningFit fit) =>
        options.TuningHabit * Math.Log(TuningHabits.ShareOf(guitar.Named)) + options.CapoHabit * LogCapo(guitar.Capo, fit)
            - (guitar.Moved is null ? 0 : options.MovedStringCost);

    /// <summary>Players put a capo on for the sake of open strings (common practice): where none is heard, it is rarer.</summary>
    private static double LogCapo(Capo capo, TuningFit fit) => Math.Log(TuningHabits.ShareOfCapo(capo.Fret)
        * (capo.Fret == 0 || fit.OpenShare >= TuningModel.Shipped.FewOpen ? 1 : TuningModel.Shipped.ClosedCapo));
}

/// <summary>A tuning with a capo.</summary>
/// <param name="Moved">What sets it apart from a known one; null for a tuning of the catalogue.</param>
internal sealed record Guitar(NamedTuning Named, Capo Capo, MovedString? Moved = null)
{
    public override string ToString() => Capo.Fret == 0 ? Named.Name : $"{Named.Name} with the capo at {Capo.Fret}";
}
