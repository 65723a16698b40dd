using System.Collections.Immutable;
using System.Text.Json;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How posteriors of beats, tempi and meters become confidences that are right as often as they say. A beat's comes from a logistic regression of
/// being right (within 70 ms of a true beat) on its posterior and its neighbours', how plainly the network hears them and the moments
/// between, and how long a beat is; the others from a straight line through log odds (<see cref="Calibration"/>).
/// </summary>
/// <param name="Temper">By what part of themselves scores count where posteriors are taken.</param>
/// <param name="TempoOctave">What an octave from what people tap takes from a tempo's log odds.</param>
/// <param name="Bias">Of the regression, and the weights of <see cref="Reasons"/>.</param>
internal sealed record BeatSureness(double Temper, double Bias, ImmutableArray<double> Weights, Calibration Tempo, double TempoOctave, Calibration Meter)
{
    /// <summary>Reasons of so many beats on either side are averaged: beats are right and wrong in stretches.</summary>
    private const int Local = 8;

    /// <summary>The length of a beat that lengths are told against, in seconds.</summary>
    private const double Usual = 0.55;

    public static BeatSureness Read(JsonElement file)
    {
        Calibration Line(string name) => new(file.GetProperty(name).GetProperty("slope").GetDouble(), file.GetProperty(name).GetProperty("offset").GetDouble());
        var beat = file.GetProperty("beat");
        return new(file.GetProperty("temper").GetDouble(), beat.GetProperty("bias").GetDouble(),
            beat.GetProperty("weights").Deserialize<ImmutableArray<double>>(), Line("tempo"),
            file.GetProperty("tempo").GetProperty("octave").GetDouble(), Line("meter"));
    }

    /// <summary>
    /// Octaves from what people tap most: 120 beats a minute (L. van Noorden and D. Moelants, "Resonance in the perception of musical pulse",
    /// Journal of New Music Research 28, 1999).
    /// </summary>
    public static double FromUsual(double tempo) => Math.Abs(Math.Log2(tempo / 120));

    /// <summary>How a tempo's share becomes a confidence.</summary>
    public Calibration TempoAt(double tempo) => Tempo with { Offset = Tempo.Offset + TempoOctave * FromUsual(tempo) };

    /// <summary>The chance that each beat of a row is right.</summary>
    public IEnumerable<double> Of(BeatRow row, PulseEvidence curves) =>
        Reasons(row, curves).Select(r => LogOdds.Chance(Bias + r.Zip(Weights, (x, w) => x * w).Sum()));

    /// <summary>For each beat: its posterior, the mean of its neighbours', of how plainly the network hears them and the moments between, and its
    /// length.</summary>
    public static double[][] Reasons(BeatRow row, PulseEvidence curves)
    {
        double[][] own =
        [
            .. row.Beats.Select(b => new[]
            {
                LogOdds.Of(b.Posterior, least: 0.002), LogOdds.Of(b.Posterior, least: 0.002), Odds(curves.Beat, b.Frame),
                Odds(curves.Beat, b.Frame - b.Interval / 2), Math.Log2(Math.Max(1, b.Interval) / PulseEvidence.FrameRate / Usual),
            }),
        ];
        return [.. own.Select((r, k) => r.Select((x, i) => i == 0 ? x : Mean(own, k, i)).ToArray())];
    }

    private static double Mean(double[][] own, int beat, int reason)
    {
        var (from, to) = (Math.Max(0, beat - Local), Math.Min(own.Length, beat + Local + 1));
        var sum = 0.0;
        for (var k = from; k < to; k++)
            sum += own[k][reason];
        return sum / (to - from);
    }

    private static double Odds(float[] curve, int frame) => LogOdds.Of(PulseEvidence.Top(curve, frame), least: 0.002);
}
