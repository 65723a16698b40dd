using System.Collections.Immutable;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// When beats fall, more exactly than frames: where a person put them, else at the top of the network's curve; a beat that nothing marks lies
/// evenly between its neighbours.
/// </summary>
internal static class BeatTimes
{
    private const double Marked = 0.1;

    public static double[] Of(ImmutableArray<ReadBeat> beats, float[] curve)
    {
        var marks = beats.Select(b => b.Held ?? Top(curve, b.Frame)).ToArray();
        var times = new double[beats.Length];
        for (int k = 0, before = -1; k < times.Length; k++)
        {
            if (marks[k] is { } mark)
            {
                (times[k], before) = (mark, k);
                continue;
            }
            var after = Array.FindIndex(marks, k, m => m is not null);
            times[k] = before < 0 || after < 0 ? beats[k].Frame / PulseEvidence.FrameRate
                : times[before] + (marks[after]!.Value - times[before]) * (k - before) / (after - before);
        }
        return times;
    }

    /// <summary>The top of the curve near a frame, to a fraction of a frame, by a parabola through three values; null where it is low.</summary>
    private static double? Top(float[] curve, int frame)
    {
        var top = frame;
        for (var f = Math.Max(1, frame - 1); f <= Math.Min(curve.Length - 2, frame + 1); f++)
            top = curve[f] > curve[top] ? f : top;
        if (curve[top] < Marked)
            return null;
        if (top == 0 || top == curve.Length - 1)
            return top / PulseEvidence.FrameRate;
        var (a, b, c) = (curve[top - 1], curve[top], curve[top + 1]);
        var bend = a - 2 * b + c;
        return (top + (bend < 0 ? Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5) : 0)) / PulseEvidence.FrameRate;
    }
}
