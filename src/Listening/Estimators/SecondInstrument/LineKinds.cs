using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.SecondInstrument;

/// <summary>Whether a line sounds with the guitar and what plays it, from all stretches of a recording.</summary>
internal static class LineKinds
{
    /// <summary>How much the network's word counts; notes of one recording are alike, so it isn't multiplied by their number.</summary>
    private const double Weight = 2;

    /// <summary>The share of breaths or notes that tells nothing; how much more of them tells, and at most (nepers).</summary>
    private const double Few = 0.06, Telling = 20, Most = 3;

    /// <summary>How often each of <see cref="LineNetwork.Kinds"/> is met with a guitar, and about which semitone its lines lie: our judgement of common practice.</summary>
    private static readonly (double Usual, double Middle, double Spread)[] Habits = [(0.4, 72, 7), (0.4, 60, 8), (0.12, 77, 7), (0.08, 70, 8)];

    public static Ranked<SecondInstrumentKind> Of(List<LineStretch> stretches, ImmutableArray<HeardKey> keys, Seconds length)
    {
        var seconds = Covered(stretches) * SecondInstrumentEstimator.Hop.Value;
        var sure = Sureness(stretches);
        var present = Present(seconds / Math.Max(1, length.Value), seconds, sure);
        var chances = Chances(stretches, HarpFit.Of(LineNotes.Of(stretches), keys));
        var words = string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s of sound that isn't plucked");
        return new([new(SecondInstrumentKind.None, 1 - present, words),
            .. LineNetwork.Kinds.Select((kind, k) => new Candidate<SecondInstrumentKind>(kind, present * chances[k], words))]);
    }

    /// <summary>How likely each kind is, if there is a line; adds up to 1.</summary>
    private static double[] Chances(List<LineStretch> stretches, HarpFit fit)
    {
        var sum = stretches.Aggregate(default(KindShares), (all, s) => all + s.Kinds * s.Length);
        var middle = Middle(stretches);
        var logs = Habits.Select((habit, k) => Math.Log(habit.Usual) - Math.Log(habit.Spread) - 0.5 * Math.Pow((middle - habit.Middle) / habit.Spread, 2)
            + Weight * Math.Log((sum[k] + 0.02 * sum.Sum) / (sum.Sum + 1e-6f) + 1e-6)).ToArray();
        logs[0] += Speaks(fit.OnOneBreath - Few) - Speaks(fit.NotOneBreath - Few) - Speaks(fit.Missing - Few);
        var top = logs.Max();
        var total = logs.Sum(l => Math.Exp(l - top));
        return [.. logs.Select(l => Math.Exp(l - top) / total)];
    }

    /// <summary>The median semitone, long stretches counting more.</summary>
    private static double Middle(List<LineStretch> stretches)
    {
        var left = stretches.Sum(s => s.Length) / 2.0;
        foreach (var s in stretches.OrderBy(s => s.Midi))
        {
            left -= s.Length;
            if (left <= 0)
                return s.Midi;
        }
        return Habits[0].Middle;
    }

    private static double Speaks(double share) => Math.Clamp(Telling * share, 0, Most);

    /// <summary>Frames in which something sounds.</summary>
    public static int Covered(List<LineStretch> stretches)
    {
        var (frames, to) = (0, 0);
        foreach (var s in stretches)
        {
            frames += Math.Max(0, s.End - Math.Max(to, s.First));
            to = Math.Max(to, s.End);
        }
        return frames;
    }

    /// <summary>The mean chance, long stretches counting more.</summary>
    public static double Sureness(List<LineStretch> stretches) =>
        stretches.Count == 0 ? 0 : stretches.Sum(s => s.Chance * s.Length) / (double)stretches.Sum(s => s.Length);

    /// <summary>An invented line is worse than a missed one, so doubt counts for the guitar.</summary>
    private static double Present(double share, double seconds, double sure) =>
        seconds < 0.5 ? 0.02 : 1 / (1 + Math.Exp(1 - 12 * (sure - 0.75) - 1.5 * Math.Log(share / 0.06)));
}
