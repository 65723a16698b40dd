using System.Collections.Immutable;

namespace Harkbook.Listening.Evaluation;

/// <summary>
/// Beat-tracking scores as defined by Davies, Degara &amp; Plumbley, "Evaluation Methods for Musical Audio Beat Tracking
/// Algorithms" (2009), with the conventions of the mir_eval library (Raffel et al., ISMIR 2014). Times in seconds, rising.
/// </summary>
public static class BeatScores
{
    /// <summary>Listeners need a while to find the beat: the usual evaluation leaves the first 5 s out.</summary>
    public static ImmutableArray<double> Trimmed(IEnumerable<double> beats, double from = 5) => [.. beats.Where(b => b >= from)];

    /// <summary>F-measure, one to one, within ±70 ms.</summary>
    public static FScore FMeasure(IReadOnlyList<double> reference, IReadOnlyList<double> estimated) =>
        Matching.Events(reference, estimated, 0.07);

    /// <summary>Cemgil's score: a Gaussian (σ = 40 ms) of each reference beat's nearest error.</summary>
    public static double Cemgil(IReadOnlyList<double> reference, IReadOnlyList<double> estimated)
    {
        if (reference.Count == 0 || estimated.Count == 0)
            return 0;
        var sum = reference.Sum(r => Math.Exp(-Math.Pow(estimated.Min(e => Math.Abs(e - r)), 2) / (2 * 0.04 * 0.04)));
        return sum / (0.5 * (reference.Count + estimated.Count));
    }

    /// <summary>McKinney's P-score: hits within 20% of the median beat, over the larger count; 10 ms grid.</summary>
    public static double PScore(IReadOnlyList<double> reference, IReadOnlyList<double> estimated)
    {
        if (reference.Count < 2 || estimated.Count < 2)
            return 0;
        var offset = Math.Min(reference[0], estimated[0]);
        var (r, e) = (Grid(reference, offset), Grid(estimated, offset));
        var intervals = r.Zip(r.Skip(1), (a, b) => b - a).Order().ToArray();
        var median = (intervals[(intervals.Length - 1) / 2] + intervals[intervals.Length / 2]) / 2.0;
        var window = (int)Math.Round(0.2 * median, MidpointRounding.ToEven);
        var hits = r.Sum(a => e.Count(b => Math.Abs(a - b) <= window));
        return (double)hits / Math.Max(reference.Count, estimated.Count);

        static int[] Grid(IReadOnlyList<double> beats, double offset) =>
            [.. beats.Select(b => (int)Math.Ceiling((b - offset) * 100)).Distinct()];
    }

    /// <summary>Continuity (Hainsworth 2004; Klapuri et al. 2006): phase and period within 17.5% of the beat.</summary>
    public static Continuity Continuity(IReadOnlyList<double> reference, IReadOnlyList<double> estimated)
    {
        if (reference.Count < 2 || estimated.Count < 2)
            return default;
        var doubled = Doubled(reference);
        double[][] levels =
        [
            [.. reference],
            [.. doubled.Where((_, i) => i % 2 == 1)],
            doubled,
            [.. reference.Where((_, i) => i % 2 == 0)],
            [.. reference.Where((_, i) => i % 2 == 1)],
        ];
        var scores = levels.Select(level => Runs(level, estimated)).ToArray();
        return new(scores[0].Longest, scores[0].Total, scores.Max(s => s.Longest), scores.Max(s => s.Total));
    }

    private static double[] Doubled(IReadOnlyList<double> beats) =>
        [.. Enumerable.Range(0, 2 * beats.Count - 1).Select(i => (beats[i / 2] + beats[(i + 1) / 2]) / 2)];

    private static (double Longest, double Total) Runs(double[] reference, IReadOnlyList<double> estimated)
    {
        var used = new bool[reference.Length];
        var (run, longest, total) = (0, 0, 0);
        for (var m = 0; m < estimated.Count; m++)
        {
            var hit = reference.Length > 1 && Hit(m);
            run = hit ? run + 1 : 0;
            total += hit ? 1 : 0;
            longest = Math.Max(longest, run);
        }
        double count = Math.Max(reference.Length, estimated.Count);
        return (longest / count, total / count);

        bool Hit(int m)
        {
            var nearest = Nearest(reference, estimated[m]);
            if (used[nearest])
                return false;
            var edge = m == 0 || nearest == 0;
            var referencePeriod = edge ? Period(reference, nearest) : reference[nearest] - reference[nearest - 1];
            var estimatedPeriod = edge ? Period(estimated, m) : estimated[m] - estimated[m - 1];
            var phase = Math.Abs(estimated[m] - reference[nearest]) / referencePeriod;
            var period = Math.Abs(1 - estimatedPeriod / referencePeriod);
            return used[nearest] = phase < 0.175 && period < 0.175;
        }
    }

    private static double Period(IReadOnlyList<double> beats, int index) =>
        index + 1 < beats.Count ? beats[index + 1] - beats[index] : beats[index] - beats[index - 1];

    private static int Nearest(double[] sorted, double value)
    {
        var best = 0;
        for (var i = 1; i < sorted.Length; i++)
        {
            if (Math.Abs(sorted[i] - value) < Math.Abs(sorted[best] - value))
                best = i;
        }
        return best;
    }
}

/// <summary>Continuous (longest run) and total shares of right beats, at the annotated level and at the best allowed level.</summary>
public readonly record struct Continuity(double CorrectLevelRun, double CorrectLevelTotal, double AnyLevelRun, double AnyLevelTotal);
