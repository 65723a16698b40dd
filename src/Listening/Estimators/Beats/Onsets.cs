namespace Harkbook.Listening.Estimators.Beats;

/// <summary>The moments at which something clearly starts.</summary>
internal sealed class Onsets
{
    private const float Least = 0.6f;
    private const int Apart = 4;
    private const double Near = 0.045;
    private readonly double[] times;

    private Onsets(double[] times) => this.times = times;

    /// <param name="curve">Levelled onset strength at <see cref="RhythmCurves.FrameRate"/>.</param>
    public static Onsets Of(float[] curve)
    {
        var times = new List<double>();
        for (var f = 0; f < curve.Length; f++)
        {
            if (curve[f] >= Least && curve[f] >= Curve.Peak(curve, f, Apart) && (times.Count == 0 || f / RhythmCurves.FrameRate - times[^1] > Near))
                times.Add(f / RhythmCurves.FrameRate);
        }
        return new([.. times]);
    }

    public double First => times[0];

    public double Last => times[^1];

    /// <summary>Whether something starts at a time, within 45 ms.</summary>
    public bool At(double time) => IndexNear(time) >= 0;

    /// <summary>How long what starts at a time lasts before the next onset, in beats, at most 2; 0 where nothing starts.</summary>
    public double Length(double time, double interval)
    {
        var k = IndexNear(time);
        return k < 0 ? 0 : Math.Min(2, ((k + 1 < times.Length ? times[k + 1] : time + 2 * interval) - times[k]) / interval);
    }

    private int IndexNear(double time)
    {
        var k = Array.BinarySearch(times, time - Near);
        k = k < 0 ? ~k : k;
        return k < times.Length && times[k] <= time + Near ? k : -1;
    }
}
