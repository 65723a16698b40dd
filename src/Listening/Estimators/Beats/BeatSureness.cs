using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How sure each beat of a row is: a logistic regression of being right (within 70 ms of a true beat) on how far the best row without it falls behind,
/// how plainly the network hears it and the moments between, how unevenly it hears neighbours, and how long the beat is.
/// </summary>
internal static class BeatSureness
{
    /// <summary>How many reasons there are.</summary>
    public const int Count = 5;

    /// <summary>Reasons of so many beats on either side are averaged: beats are right and wrong in stretches.</summary>
    private const int Local = 8;

    /// <summary>Fitted by training/BeatChecks on composed music, and on renderings of other composers' music that docs/listening.md names.</summary>
    private static readonly double[] Weights = [0.026, 0.888, -0.084, -0.071, 2.121];

    private const double Bias = 0.085;

    /// <summary>The chance that each beat of a row is right.</summary>
    public static double[] Of(BeatRow row, PulseEvidence evidence) =>
        [.. Reasons(row, evidence).Select(r => LogOdds.Chance(Bias + r.Zip(Weights, (x, w) => x * w).Sum()))];

    /// <summary>Shape (beats, <see cref="Count"/>).</summary>
    public static double[][] Reasons(BeatRow row, PulseEvidence evidence)
    {
        var own = Enumerable.Range(0, row.Beats.Count).Select(k => Own(row, evidence, k)).ToArray();
        return [.. own.Select((reasons, k) => new[] { reasons[0] }.Concat(Enumerable.Range(1, Count - 1).Select(r => Mean(own, k, r))).ToArray())];
    }

    private static double[] Own(BeatRow row, PulseEvidence evidence, int k)
    {
        var beat = row.Beats[k];
        var (on, between) = (Odds(evidence.Beat, beat.Frame), Odds(evidence.Beat, beat.Frame - beat.Interval / 2));
        return
        [
            Math.Log(1 + Math.Max(0, row.LossWithout(k))),
            on,
            between,
            k == 0 ? 0 : Math.Abs(on - Odds(evidence.Beat, row.Beats[k - 1].Frame)),
            Math.Log2(beat.Interval / PulseEvidence.FrameRate / PulseScores.UsualInterval),
        ];
    }

    private static double Mean(double[][] own, int beat, int reason)
    {
        var (from, to) = (Math.Max(0, beat - Local), Math.Min(own.Length, beat + Local + 1));
        var sum = 0.0;
        for (var k = from; k < to; k++)
            sum += own[k][reason];
        return sum / (to - from);
    }

    /// <summary>The log odds of a beat near a frame.</summary>
    private static double Odds(float[] curve, int frame) => LogOdds.Of(PulseEvidence.Top(curve, frame), least: 0.002);
}
