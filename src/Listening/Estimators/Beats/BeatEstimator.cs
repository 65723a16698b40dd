using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Finds tempo, meter, beats and downbeats. Onset curves give several ways to hear the beat (<see cref="GridFinder"/>);
/// what sounds on and between the beats decides among them; then the bars are placed by bass, accent and change of harmony.
/// </summary>
public sealed class BeatEstimator(BeatOptions? options = null)
{
    private const int Kept = 5;

    /// <summary>The onset curve of a strum tops a little after its first string sounds.</summary>
    private const double StrumSeconds = 0.008;

    private readonly BeatOptions options = Checked(options ?? new());

    /// <param name="mono">One channel, at any rate.</param>
    public BeatEstimate Estimate(Signal mono, CancellationToken cancellation = default)
    {
        if (mono.Channels.Count != 1)
            throw new ArgumentException($"Beats are found in one channel and this signal has {mono.Channels.Count}; call ToMono first.", nameof(mono));
        var curves = RhythmCurves.Of(mono, cancellation);
        if (curves.FirstSound < 0)
            return Nothing("no sound was heard");
        var activation = curves.Activation();
        var grids = new GridFinder(curves, options).Find(activation, cancellation);
        return grids.Count == 0 ? Nothing("the sound is too short to hold a beat") : Choose(grids, activation);
    }

    private static BeatEstimate Choose(List<BeatGrid> grids, BeatActivation activation)
    {
        var shares = Softmax.Of([.. grids.Select(g => BeatLevelWeights.Score(BeatLevelEvidence.Of(g)))]);
        var ranked = Agreement.Rank(grids, shares);
        var (best, expected) = ranked[0];
        var clarity = Clarity.Of(best, activation);
        var meters = BarTracker.Rank(best);
        return new(Tempos(ranked, clarity), Meters(best, meters, clarity), Beats(best, meters[0].Meter, activation, clarity * expected));
    }

    private static Ranked<double> Tempos(List<(BeatGrid Grid, double Expected)> ranked, double clarity)
    {
        var tempos = new List<Candidate<double>>();
        foreach (var (grid, expected) in ranked)
        {
            if (tempos.Count < Kept && !tempos.Any(t => Math.Abs(Math.Log(t.Value / grid.BeatsPerMinute)) < 0.06))
                tempos.Add(new(MeanTempo(grid), expected * clarity, PulseWords.OfTempo(grid)));
        }
        return new([.. tempos]);
    }

    private static double MeanTempo(BeatGrid grid) => 60 * (grid.Times.Length - 1) / (grid.Times[^1] - grid.Times[0]);

    private static Ranked<Meter> Meters(BeatGrid grid, List<(Meter Meter, double Share, int Phase)> meters, double clarity) =>
        new([.. meters.Select(m => new Candidate<Meter>(m.Meter, m.Share * clarity, PulseWords.OfMeter(grid, m.Meter, m.Phase)))]);

    private static ImmutableArray<HeardBeat> Beats(BeatGrid grid, Meter meter, BeatActivation activation, double confidence)
    {
        var positions = BarTracker.Positions(grid, meter);
        return [.. grid.Times.Select((time, k) =>
            new HeardBeat(Seconds.FromSeconds(Math.Max(0, time - StrumSeconds)), positions[k], Clarity.OfBeat(activation, time, confidence)))];
    }

    private static BeatEstimate Nothing(string why) =>
        new(new(new Candidate<double>(0, 0, why)), new(new Candidate<Meter>(Meter.CommonTime, 0, why)), []);

    private static BeatOptions Checked(BeatOptions options)
    {
        options.Require();
        return options;
    }
}
