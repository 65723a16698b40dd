namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What is heard at a row of places: onsets in all, in the bass, the middle and the treble (natural logarithms), the change of harmony,
/// how long what starts there lasts before the next onset, which way the strings are stroked, and the change of the bass note.
/// </summary>
internal sealed class CueTable
{
    public const int All = 0, Low = 1, Mid = 2, High = 3, Harmony = 4, Length = 5, Stroke = 6, Bass = 7;
    public const int Cues = 8;
    private const double ReachFrames = 3;

    private CueTable(double[][] values) => Values = values;

    /// <summary>Shape (cues, places).</summary>
    public double[][] Values { get; }

    public static CueTable Read(RhythmCurves curves, double[] times, double interval)
    {
        var width = Math.Clamp(interval, 0.25, 1.0);
        return new([Onsets(curves.All, times), Onsets(curves.Low, times), Onsets(curves.Mid, times), Onsets(curves.High, times),
            Changes(curves.Harmony, times, width), [.. times.Select(t => curves.Onsets.Length(t, interval))],
            [.. times.Select(curves.Stroke)], Changes(curves.Bass, times, width)]);
    }

    public double Mean(int cue) => Values[cue].Length == 0 ? 0 : Values[cue].Average();

    public double Spread(int cue)
    {
        var mean = Mean(cue);
        return Values[cue].Length == 0 ? 1 : Math.Sqrt(Values[cue].Average(x => (x - mean) * (x - mean)) + 0.01);
    }

    /// <summary>The mean of every <paramref name="period"/>-th place, counted from <paramref name="phase"/>, less the mean of the others.</summary>
    public double Accent(int cue, int period, int phase)
    {
        double on = 0, off = 0;
        int ons = 0, offs = 0;
        for (var k = 0; k < Values[cue].Length; k++)
        {
            if (k % period == phase)
                (on, ons) = (on + Values[cue][k], ons + 1);
            else
                (off, offs) = (off + Values[cue][k], offs + 1);
        }
        return ons == 0 || offs == 0 ? 0 : on / ons - off / offs;
    }

    private static double[] Changes(HarmonyCurve harmony, double[] times, double width) =>
        [.. times.Select(t => 4 * Math.Sqrt(harmony.Change(t, width)))];

    private static double[] Onsets(float[] curve, double[] times) =>
        [.. times.Select(t => Math.Log(0.3 + Curve.Peak(curve, t * RhythmCurves.FrameRate, ReachFrames)))];
}
