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
        var guitars = Fitted(evidence, Guitars(options, tuning, capo), ct);
        Weigh(evidence, guitars);
        if (evidence.TotalWeight > 0 && tuning is null)
        {
            var best = guitars.OrderByDescending(w => w.Score).DistinctBy(w => w.Fit).Take(options.MovedFrom).ToArray();
            guitars = [.. guitars, .. Fitted(evidence, best.SelectMany(w => FreeTunings.Near(w.Guitar, key.Centre)), ct)];
            Weigh(evidence, guitars);
        }
        var posteriors = Softmax.Of([.. guitars.Select(w => w.Score)]);
        return TuningModel.Shipped.Sureness.Of(new Distribution<HeardTuning>([.. guitars.Zip(posteriors)
            .OrderByDescending(w => w.Second).Take(options.Candidates).Select(w => Heard(evidence, w.First, w.Second))]));
    }

    internal static IEnumerable<Guitar> Guitars(TuningOptions options, Tuning? told = null, Capo? capo = null)
    {
        NamedTuning[] tunings = told is null ? [.. TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar)]
            : [TuningCatalogue.All.FirstOrDefault(t => t.Tuning == told) ?? new(TuningCatalogue.Guitar, told.ToString(), [], told, "as told")];
        Capo[] capos = capo is { } known ? [known] : [.. Enumerable.Range(0, options.HighestCapo + 1).Select(fret => Capo.At(fret))];
        return tunings.SelectMany(_ => capos, (tuning, at) => new Guitar(tuning, at));
    }

    internal static IEnumerable<int> Open(Guitar guitar) => guitar.Named.Tuning.Strings.Select(s => s.Midi + guitar.Capo.Fret);

    private static Candidate<HeardTuning> Heard(TuningEvidence evidence, WeighedGuitar w, double posterior) =>
        new(new(w.Guitar.Named.Tuning, w.Guitar.Capo, w.Guitar.Moved is null ? w.Guitar.Named.Name : null), posterior,
            new TuningReasons(evidence, w).ToString());

    private static WeighedGuitar[] Fitted(TuningEvidence evidence, IEnumerable<Guitar> guitars, CancellationToken ct) =>
        [.. guitars.GroupBy(g => string.Join(' ', Open(g))).Select(g => g.ToList())
            .AsParallel().AsOrdered().WithCancellation(ct).Select(g => (Fit: new TuningFit(evidence, [.. Open(g[0])]), Alike: g))
            .SelectMany(f => f.Alike.Select(g => new WeighedGuitar(g, f.Fit, f.Alike)))];

    /// <summary>By the hand and habit; those that this leaves hope by their strings, too.</summary>
    private void Weigh(TuningEvidence evidence, WeighedGuitar[] guitars)
    {
        Score(guitars, [.. guitars.Select(_ => (StringFit?)null)]);
        if (evidence.Telling.IsEmpty)
            return;
        var hopeful = guitars.Max(w => w.Score) - Hopeless;
        guitars.AsParallel().Where(w => w.Score >= hopeful && w.Strings is null).ForAll(w => w.Strings = new(evidence, w.Guitar));
        Score(guitars, [.. guitars.Select(w => w.Score >= hopeful ? w.Strings : null)]);
    }

    private void Score(WeighedGuitar[] guitars, StringFit?[] strings)
    {
        var scores = TuningWeigher.Shipped.Weigh([.. guitars.Select(w => w.Fit)], strings);
        for (var i = 0; i < guitars.Length; i++)
            guitars[i].Score = scores[i] + LogHabit(guitars[i].Guitar, strings[i]?.Constants.OpenShare ?? guitars[i].Fit.OpenShare);
    }

    /// <param name="openShare">Of all notes: on open strings, or, where strings aren't known, at their pitches.</param>
    private double LogHabit(Guitar guitar, double openShare) =>
        options.TuningHabit * Math.Log(TuningHabits.ShareOf(guitar.Named)) + options.CapoHabit * LogCapo(guitar.Capo, openShare)
            - (guitar.Moved is null ? 0 : options.MovedStringCost);

    /// <summary>Players put a capo on for the sake of open strings (common practice): where none is heard, it is rarer.</summary>
    private static double LogCapo(Capo capo, double openShare) => Math.Log(TuningHabits.ShareOfCapo(capo.Fret)
        * (capo.Fret == 0 || openShare >= TuningModel.Shipped.FewOpen ? 1 : TuningModel.Shipped.ClosedCapo));
}

/// <summary>A tuning with a capo.</summary>
/// <param name="Moved">What sets it apart from a known one; null for a tuning of the catalogue.</param>
internal sealed record Guitar(NamedTuning Named, Capo Capo, MovedString? Moved = null)
{
    public override string ToString() => Capo.Fret == 0 ? Named.Name : $"{Named.Name} with the capo at {Capo.Fret}";
}
