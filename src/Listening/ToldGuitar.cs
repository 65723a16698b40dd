using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Music.Instruments;

namespace Harkbook.Listening;

/// <summary>What a person says about the guitar outranks what was heard of it.</summary>
public static class ToldGuitar
{
    /// <summary>The same hearing with a tuning and capo that are known, and every note put on that guitar's strings.</summary>
    /// <param name="tuning">Null leaves it to what was heard with that capo, else standard tuning.</param>
    /// <param name="capo">Null is none where a tuning is given, else what was heard.</param>
    public static Hearing Apply(Hearing hearing, Tuning? tuning, Capo? capo, CancellationToken ct = default)
    {
        if (tuning is null && capo is null)
            return hearing;
        var heard = hearing.Tuning.Candidates.Select(c => c.Value).FirstOrDefault(g => g.Capo == capo)?.Tuning;
        var known = tuning ?? heard ?? Tuning.Standard;
        var guitar = new HeardTuning(known, capo ?? Capo.None, TuningCatalogue.NameOf(known));
        return hearing with
        {
            Tuning = new(new Candidate<HeardTuning>(guitar, 1, "as told")),
            Notes = new FrettingEstimator().Estimate(hearing.Notes, guitar, ct),
        };
    }
}
