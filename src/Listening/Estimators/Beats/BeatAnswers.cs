using System.Globalization;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Puts decoded beats into an estimate: exact times, ranked tempi and meters whose confidences sum to 1, and why.</summary>
internal static class BeatAnswers
{
    private const double Believed = 0.02;

    /// <summary>
    /// What people tap: about 120 beats a minute, within so many octaves (L. van Noorden and D. Moelants, "Resonance in the perception of musical
    /// pulse", Journal of New Music Research 28, 1999; the spread is our own estimate).
    /// </summary>
    private const double UsuallyTapped = 120, OctavesAround = 0.55;

    /// <summary>How often music is written, where both are tapped as easily, at half of what is heard, and at twice: judged on pieces that docs/listening.md names.</summary>
    private const double WrittenHalf = 0.25, WrittenTwice = 0.06;

    private const double Temper = 0.15;

    /// <summary>Fitted on three sets of pieces that docs/listening.md names.</summary>
    private static readonly Calibration MeterSureness = new(1.3, -1.6);

    private static readonly Meter[] MetersTold = [Meter.Of(2, 4), Meter.Of(3, 4), Meter.CommonTime, Meter.Of(6, 8), Meter.Of(12, 8)];

    private static readonly string[] RatioWords =
        ["", "half as fast", "twice as fast", "two beats for three", "three beats for two", "a third as fast", "three times as fast", "a quarter as fast", "four times as fast", "three beats for four", "four beats for three"];

    public static BeatEstimate Nothing(string why) =>
        new(new(new Candidate<double>(0, 1, why)), new(new Candidate<Meter>(Meter.CommonTime, 0, why)), []);

    public static BeatEstimate Of(List<BeatRow> rows, PulseEvidence evidence)
    {
        var beats = rows.SelectMany(r => r.Beats).ToList();
        var clarity = Clarity(beats, evidence);
        var times = beats.Select(b => Exact(evidence.Beat, b.Frame)).ToArray();
        var heard = rows.SelectMany(r => BeatSureness.Of(r, evidence)).Select(sure => sure * clarity);
        return new(
            Tempos(rows, times, clarity),
            Meters(beats, evidence),
            [.. beats.Zip(times, heard).Select(b => new HeardBeat(Seconds.FromSeconds(b.Second), BarModel.PositionOf(b.First.Place), b.Third))]);
    }

    /// <summary>How clear the beat is: near 0 in noise, near 1 for a plain strum.</summary>
    private static double Clarity(List<DecodedBeat> beats, PulseEvidence evidence) =>
        LogOdds.Chance(12 * (beats.Average(b => PulseEvidence.Top(evidence.Beat, b.Frame)) - 0.22));

    private static Distribution<double> Tempos(List<BeatRow> rows, double[] times, double clarity)
    {
        var shares = new double[BeatRow.Ratios.Length];
        foreach (var losses in rows.SelectMany(r => Enumerable.Range(0, r.Beats.Count).Select(r.LossesAt)))
        {
            var weights = losses.Select(l => Math.Exp(-Temper * l)).ToArray();
            for (var r = 0; r < shares.Length; r++)
                shares[r] += weights[r] / weights.Sum();
        }
        var gaps = times.Skip(1).Zip(times, (b, a) => b - a).Where(g => g < 3).ToArray();
        var tempo = 60 / gaps.Average();
        shares[Array.IndexOf(BeatRow.Ratios, 2)] += shares[0] * Rival(WrittenHalf, tempo / 2, tempo);
        shares[Array.IndexOf(BeatRow.Ratios, 0.5)] += shares[0] * Rival(WrittenTwice, tempo * 2, tempo);
        var sum = shares.Sum();
        var candidates = shares.Select((s, r) => new Candidate<double>(tempo / BeatRow.Ratios[r], clarity * s / sum, r == 0 ? Steadiness(gaps) : RatioWords[r]))
            .Where(c => c.Confidence > Believed * clarity).Append(new(0, 1 - clarity, "there may be no beat to feel")).ToList();
        var kept = candidates.Sum(c => c.Confidence);
        return new([.. candidates.Select(c => c with { Confidence = c.Confidence / kept })]);
    }

    /// <summary>The share of another tempo beside that of the beats that are told, which stays ahead.</summary>
    private static double Rival(double written, double other, double tempo) => Math.Min(0.9, written * Tapped(other) / Tapped(tempo));

    private static double Tapped(double tempo) => Math.Exp(-0.5 * Math.Pow(Math.Log2(tempo / UsuallyTapped) / OctavesAround, 2));

    private static string Steadiness(double[] gaps)
    {
        var sorted = gaps.Order().ToArray();
        var (fast, slow) = (60 / sorted[sorted.Length / 10], 60 / sorted[sorted.Length * 9 / 10]);
        return fast / slow < 1.05 ? "steady" : string.Create(CultureInfo.InvariantCulture, $"bends between {slow:0} and {fast:0}");
    }

    /// <summary>What the network feels of the meter, with the share of beats that the decoder put into each kind of bar.</summary>
    private static Distribution<Meter> Meters(List<DecodedBeat> beats, PulseEvidence evidence)
    {
        var felt = new double[PulseEvidence.Meters];
        var kinds = new double[BarModel.Lengths.Length];
        foreach (var beat in beats)
        {
            kinds[BarModel.KindOf[beat.Place]] += 1.0 / beats.Count;
            for (var m = 0; m < felt.Length; m++)
                felt[m] += evidence.Meter[beat.Frame, m] / beats.Count;
        }
        int[] kindOfMeter = [0, 1, 2, 0, 2];
        var weights = felt.Select((f, m) => Math.Sqrt(f + 1e-3) * Math.Pow(kinds[kindOfMeter[m]] + 0.02, 1.5)).ToArray();
        // Beats and bars must agree: the meter of most bars comes first.
        var usual = Array.IndexOf(kinds, kinds.Max());
        for (var m = 0; m < weights.Length; m++)
            weights[m] *= kindOfMeter[m] == usual ? 1 : 0.5;
        return MeterSureness.Of(new Distribution<Meter>([.. weights.Select((w, m) => new Candidate<Meter>(MetersTold[m], w / weights.Sum(), string.Create(CultureInfo.InvariantCulture, $"{100 * kinds[kindOfMeter[m]]:0} % of the beats fall into bars of {MetersTold[m].BeatsPerBar}")))]));
    }

    /// <summary>The place of the top of the evidence near a frame, to a fraction of a frame, by a parabola through three values.</summary>
    private static double Exact(float[] curve, int frame)
    {
        var top = frame;
        for (var f = Math.Max(1, frame - 1); f <= Math.Min(curve.Length - 2, frame + 1); f++)
            top = curve[f] > curve[top] ? f : top;
        if (top == 0 || top == curve.Length - 1 || curve[top] < 0.1)
            return frame / PulseEvidence.FrameRate;
        var (a, b, c) = (curve[top - 1], curve[top], curve[top + 1]);
        var bend = a - 2 * b + c;
        return (top + (bend < 0 ? Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5) : 0)) / PulseEvidence.FrameRate;
    }
}
