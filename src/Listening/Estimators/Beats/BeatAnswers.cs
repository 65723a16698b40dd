using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Puts the beats that were read into an estimate: exact times, ranked tempi and meters whose confidences sum to 1, and why.</summary>
internal static class BeatAnswers
{
    private const double Believed = 0.02;
    private const double Unlikely = 0.005;

    /// <summary>Which of <see cref="BeatRow.Ratios"/> are another level of the same beat.</summary>
    private static readonly int[] Levels = [1, 2];

    private const double Clear = 0.27, Plainness = 12;

    private static readonly Meter[] MetersTold = [Meter.Of(2, 4), Meter.Of(3, 4), Meter.CommonTime, Meter.Of(6, 8), Meter.Of(12, 8)];

    private static readonly int[] KindOfMeter = [0, 1, 2, 0, 2];

    private static readonly string[] RatioWords =
    [
        "", "half as fast", "twice as fast", "two beats for three", "three beats for two", "a third as fast", "three times as fast",
        "a quarter as fast", "four times as fast", "three beats for four", "four beats for three",
    ];

    public static BeatEstimate Nothing(string why) =>
        new(new(new Candidate<double>(0, 1, why)), new(new Candidate<Meter>(Meter.CommonTime, 0, why)), []);

    public static BeatEstimate Of(List<BeatRow> rows, PulseSound heard, ImmutableArray<HeardNote> notes, Claims claims, BeatModel model)
    {
        var (curves, sureness) = (heard.Curves, model.Sureness);
        ImmutableArray<ReadBeat> beats = [.. rows.SelectMany(r => r.Beats)];
        var clarity = LogOdds.Chance(Plainness * (beats.Average(b => PulseEvidence.Top(curves.Beat, b.Frame)) - Clear));
        var times = BeatTimes.Of(beats, curves.Beat);
        var sure = rows.SelectMany(r => sureness.Of(r, curves)).ToArray();
        var reasons = new LevelReasons(curves, NoteAccents.Moments(notes), model.Habits, times[0], times[^1]);
        return new(
            Tempos(rows, times, clarity, sureness, reasons),
            claims.Meter is { } told ? Told.Only(told) : Meters(rows, beats, curves, sureness.Meter),
            [.. beats.Select((b, k) => new HeardBeat(Seconds.FromSeconds(times[k]), BarModel.PositionOf(b.Place), b.Held is null ? sure[k] * clarity : 1))]);
    }

    private static Distribution<double> Tempos(List<BeatRow> rows, double[] times, double clarity, BeatSureness sureness, LevelReasons reasons)
    {
        var gaps = times.Skip(1).Zip(times, (b, a) => b - a).Where(g => g < 3).ToArray();
        var tempo = 60 / gaps.Average();
        var beats = rows.Sum(r => r.Beats.Length);
        var shares = Calibrated([.. BeatRow.Ratios.Select((_, r) => rows.Sum(row => row.Tempi[r] * row.Beats.Length) / beats)], 0, sureness.TempoAt(tempo));
        // Half and twice as fast are always told, however unlikely: which of them is the beat is for people to say.
        foreach (var r in Levels)
            shares[r] = Math.Max(shares[r], Unlikely);
        var believed = Enumerable.Range(0, shares.Length).Where(r => shares[r] > Believed || r == 0 || Levels.Contains(r)).ToArray();
        var sum = believed.Sum(r => shares[r]);
        return new(
        [
            .. believed.Select(r => new Candidate<double>(
                tempo / BeatRow.Ratios[r], clarity * shares[r] / sum,
                $"{(r == 0 ? Steadiness(gaps) : RatioWords[r])}: {reasons.Of(tempo / BeatRow.Ratios[r])}")),
            new(0, 1 - clarity, "there may be no beat to feel"),
        ]);
    }

    /// <summary>
    /// Shares that sum to 1, of which what was read has the calibrated one, and the others in proportion; none of them more, since what was
    /// read is told first.
    /// </summary>
    internal static double[] Calibrated(double[] shares, int read, Calibration calibration)
    {
        var sum = shares.Sum() + 1e-12;
        var own = shares[read] / sum;
        var others = Math.Max(1e-9, 1 - own);
        var most = shares.Where((_, i) => i != read).Max() / sum / others;
        var chance = Math.Max(LogOdds.Chance(calibration.Slope * LogOdds.Of(own) + calibration.Offset), most / (1 + most));
        double[] told = [.. shares.Select((s, i) => i == read ? chance : s / sum * (1 - chance) / others)];
        // Rounding lets none pass either.
        told[read] = told.Max();
        return told;
    }

    private static string Steadiness(double[] gaps)
    {
        var sorted = gaps.Order().ToArray();
        var (fast, slow) = (60 / sorted[sorted.Length / 10], 60 / sorted[sorted.Length * 9 / 10]);
        return fast / slow < 1.05 ? "steady" : string.Create(CultureInfo.InvariantCulture, $"bends between {slow:0} and {fast:0}");
    }

    /// <summary>How rows share out bars of two, three and four, and what the network feels within each kind.</summary>
    private static Distribution<Meter> Meters(List<BeatRow> rows, ImmutableArray<ReadBeat> beats, PulseEvidence curves, Calibration calibration)
    {
        var (felt, kinds, read) = (new double[PulseEvidence.Meters], new double[BarModel.Lengths.Length], new double[BarModel.Lengths.Length]);
        foreach (var row in rows)
        {
            for (var k = 0; k < kinds.Length; k++)
                kinds[k] += row.Kinds[k] * row.Beats.Length / beats.Length;
        }
        foreach (var beat in beats)
        {
            read[BarModel.KindOf[beat.Place]] += 1.0 / beats.Length;
            for (var m = 0; m < felt.Length; m++)
                felt[m] += (curves.Meter[beat.Frame, m] + 1e-3) / beats.Length;
        }
        // Beats and bars must agree: the meter of most bars comes first.
        var usual = Array.IndexOf(read, read.Max());
        kinds = Calibrated(kinds, usual, calibration);
        var among = kinds.Select((_, k) => felt.Where((_, m) => KindOfMeter[m] == k).Sum()).ToArray();
        var candidates = MetersTold.Select((meter, m) => new Candidate<Meter>(meter, kinds[KindOfMeter[m]] * felt[m] / among[KindOfMeter[m]],
            string.Create(CultureInfo.InvariantCulture, $"{100 * read[KindOfMeter[m]]:0} % of the beats fall into bars of {meter.BeatsPerBar}"))).ToArray();
        return Led(candidates, Enumerable.Range(0, candidates.Length).Where(m => KindOfMeter[m] == usual).MaxBy(m => candidates[m].Confidence));
    }

    /// <summary>Shares that sum to 1, of which one is no less than any other.</summary>
    private static Distribution<T> Led<T>(Candidate<T>[] candidates, int first)
    {
        candidates[first] = candidates[first] with { Confidence = Math.Max(candidates[first].Confidence, candidates.Max(c => c.Confidence)) };
        var sum = candidates.Sum(c => c.Confidence);
        return new([candidates[first] with { Confidence = candidates[first].Confidence / sum },
            .. candidates.Where((_, i) => i != first).Select(c => c with { Confidence = c.Confidence / sum })]);
    }
}
