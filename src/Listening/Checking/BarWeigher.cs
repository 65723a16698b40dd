using System.Collections.Immutable;
using System.Globalization;
using Harkbook.Listening.Evidence;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.Listening.Checking;

/// <summary>
/// Weighs where claimed bars start: each against the heard beats about it, its neighbours taken as they are claimed. A good bar line falls on a heard
/// beat, on one that begins a heard bar where the claimed bars hold whole heard ones or whole parts of them, and leaves as many heard beats on both
/// sides of it as such bars hold throughout. What was heard tells as much of one bar as it is right about the others: where most claimed bars lie off
/// the heard beats, or on beats that begin no heard bar, it is likelier the hearing that is off than each of them.
/// </summary>
internal sealed class BarWeigher
{
    /// <summary>Deviation of a claimed bar line from the beat that it means, in seconds, and how often it is anywhere.</summary>
    private const double Spread = 0.035, Anywhere = 0.02;

    /// <summary>What a beat too many or too few in a bar costs, in natural logs; no more than for two is counted.</summary>
    private const double Irregular = 3;

    private readonly Hearing hearing;
    private readonly double[] times;
    private readonly PulseEvidence curves;

    public BarWeigher(Hearing hearing) =>
        (this.hearing, times, curves) = (hearing, [.. hearing.Beats.Select(b => b.Time.Value)], hearing.Evidence.Pulse.Curves);

    public IEnumerable<Finding> Weigh(ImmutableArray<ClaimedBar> bars)
    {
        if (times.Length < 4)
            return bars.Select(b => Finding.Weighed(ClaimKind.Bar, 0, b.Where, b.Claim, "no steady beat heard"));
        var rates = bars.Zip(bars.Skip(1)).Select(p => (Index(p.Second.Start.Value) - Index(p.First.Start.Value)) / (p.First.Beats ?? 1)).Order().ToArray();
        var rate = rates.Length == 0 ? 1 : rates[rates.Length / 2];
        bool[] onBeats = [.. bars.Select(b => IsOnBeat(b.Start.Value))], onBars = [.. bars.Select(b => Downbeat(b.Start.Value, rate * (b.Beats ?? 1)) >= 0)];
        return bars.Select((bar, i) => Weigh(bar, i > 0 ? bars[i - 1] : null, i + 1 < bars.Length ? bars[i + 1] : null, rate,
            new(ShareOfOthers(onBeats, i), ShareOfOthers(onBars, i))));
    }

    /// <summary>Taken to be one more right than are counted, so that a lone bar is weighed as heard.</summary>
    private static double ShareOfOthers(bool[] right, int index) => (1 + right.Where((r, i) => r && i != index).Count()) / (double)right.Length;

    private Finding Weigh(ClaimedBar bar, ClaimedBar? before, ClaimedBar? after, double rate, Trust trust)
    {
        var start = bar.Start.Value;
        if (start < times[0] - Spread * 3 || start > times[^1] + Spread * 3)
            return Finding.Weighed(ClaimKind.Bar, 1, bar.Where, bar.Claim, "no beat is heard so far out");
        var held = rate * (bar.Beats ?? 1);
        var own = Fit(start);
        var (from, to) = (before?.Start.Value ?? double.MinValue, after?.Start.Value ?? double.MaxValue);
        var rivals = times.Where(t => Math.Abs(Index(t) - Index(start)) <= held + 0.5 && Math.Abs(t - start) > 2 * Spread && t > from + Spread
            && t < to - Spread).ToArray();
        if (rivals.Length == 0)
            return Finding.Weighed(ClaimKind.Bar, own.Sum, bar.Where, bar.Claim);
        var best = rivals.MaxBy(t => Fit(t).Sum);
        var ahead = own.Sum - Fit(best).Sum;
        var rival = TimeText.Write(Seconds.FromSeconds(Math.Round(best, 3)));
        return Finding.Weighed(ClaimKind.Bar, ahead, bar.Where, bar.Claim, Told(start), rival) with
        {
            Rival = new(rival, -ahead),
            Clues = new Dictionary<string, double>
            {
                ["beat"] = own.Beat, ["downbeat"] = own.Downbeat, ["regular"] = own.Regular, ["pulse"] = trust.InBeats * Pulse(curves.Beat, start),
                ["change of bar"] = trust.InBars * (Pulse(curves.Downbeat, start) - Pulse(curves.Downbeat, best)),
            }.ToImmutableDictionary(),
        };

        (double Beat, double Downbeat, double Regular, double Sum) Fit(double at)
        {
            var beat = trust.InBeats * OnBeat(at);
            var down = trust.InBeats * trust.InBars * Downbeat(at, held);
            var regular = -trust.InBeats * Irregular * (Off(before, at, before?.Beats) + Off(after, at, bar.Beats));
            return (beat, down, regular, beat + down + regular);
        }

        double Off(ClaimedBar? neighbour, double at, double? beats) =>
            neighbour is null ? 0 : Math.Min(2, Math.Abs(Math.Abs(Index(neighbour.Start.Value) - Index(at)) - rate * (beats ?? 1)));
    }

    private string Told(double start)
    {
        var beat = hearing.Beats[Nearest(start)];
        var off = start - beat.Time.Value;
        return !IsOnBeat(start)
            ? string.Create(CultureInfo.InvariantCulture, $"the nearest beat is {Math.Abs(off) * 1000:0} ms {(off > 0 ? "earlier" : "later")}")
            : $"beat {beat.PositionInBar} of a bar falls here";
    }

    /// <summary>How surely a curve has a peak there, in log-odds; 0 where nothing was listened to.</summary>
    private static double Pulse(float[] curve, double at) =>
        curve.Length == 0 ? 0 : LogOdds.Of(PulseEvidence.Top(curve, (int)Math.Round(at * PulseEvidence.FrameRate)), 0.003);

    private bool IsOnBeat(double at) => Math.Abs(at - times[Nearest(at)]) <= 2 * Spread;

    private double OnBeat(double at)
    {
        var off = (at - times[Nearest(at)]) / Spread;
        return Math.Log((1 - Anywhere) * Math.Exp(-0.5 * off * off) + Anywhere);
    }

    /// <summary>How surely a heard bar begins there; 0 where the claimed bars can't be made of heard ones or whole parts of them.</summary>
    private double Downbeat(double at, double held)
    {
        var (whole, heard) = ((int)Math.Round(held), hearing.Meter.Best.BeatsPerBar);
        if (whole < 1 || (whole % heard != 0 && heard % whole != 0))
            return 0;
        var beat = hearing.Beats[Nearest(at)];
        var starts = (beat.PositionInBar - 1) % Math.Min(whole, heard) == 0;
        return (starts ? 1 : -1) * LogOdds.Of(0.5 + 0.5 * hearing.Meter.Confidence * beat.Confidence, 0.01);
    }

    /// <summary>How many heard beats lie before a time, parts of them too; beyond the heard ones by the pace of the nearest.</summary>
    private double Index(double time)
    {
        var i = Math.Clamp(Nearest(time) - (times[Nearest(time)] > time ? 1 : 0), 0, times.Length - 2);
        return i + (time - times[i]) / (times[i + 1] - times[i]);
    }

    private int Nearest(double time)
    {
        var index = Array.BinarySearch(times, time);
        if (index >= 0)
            return index;
        index = ~index;
        return index == 0 ? 0
            : index == times.Length || time - times[index - 1] < times[index] - time ? index - 1
            : index;
    }

    /// <summary>The share of the other claimed bars that lie on heard beats, and on beats that begin heard bars.</summary>
    private readonly record struct Trust(double InBeats, double InBars);
}
