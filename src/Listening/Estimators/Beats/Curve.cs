namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Arithmetic on curves sampled at frames.</summary>
internal static class Curve
{
    public static float Peak(float[] curve, double frame, double reach)
    {
        var from = Math.Max(0, (int)Math.Ceiling(frame - reach));
        var to = Math.Min(curve.Length - 1, (int)Math.Floor(frame + reach));
        var max = 0f;
        var any = false;
        for (var f = from; f <= to; f++)
        {
            max = any ? Math.Max(max, curve[f]) : curve[f];
            any = true;
        }
        return max;
    }

    /// <summary>The mean of the frames within <paramref name="reach"/> of each frame.</summary>
    public static float[] Smooth(float[] curve, int reach)
    {
        var sums = new double[curve.Length + 1];
        for (var f = 0; f < curve.Length; f++)
            sums[f + 1] = sums[f] + curve[f];
        var smooth = new float[curve.Length];
        for (var f = 0; f < curve.Length; f++)
        {
            var from = Math.Max(0, f - reach);
            var to = Math.Min(curve.Length, f + reach + 1);
            smooth[f] = (float)((sums[to] - sums[from]) / (to - from));
        }
        return smooth;
    }

    /// <summary>What stands above the local mean, measured in local root mean squares, so that quiet passages count as much as loud ones.</summary>
    public static float[] Level(float[] curve, int meanReach, int spreadReach)
    {
        var mean = Smooth(curve, meanReach);
        var above = new float[curve.Length];
        for (var f = 0; f < curve.Length; f++)
            above[f] = Math.Max(0, curve[f] - mean[f]);
        var power = Smooth([.. above.Select(x => x * x)], spreadReach);
        var overall = above.Length == 0 ? 0 : above.Average(x => (double)x * x);
        for (var f = 0; f < above.Length; f++)
            above[f] /= (float)Math.Sqrt(power[f] + 0.05 * overall + 1e-9);
        return above;
    }

    /// <summary>The place of the top near a frame, to a fraction of a frame, by a parabola through three values.</summary>
    public static double Top(float[] curve, int frame, int reach)
    {
        var best = Math.Clamp(frame, 0, curve.Length - 1);
        for (var f = Math.Max(0, frame - reach); f <= Math.Min(curve.Length - 1, frame + reach); f++)
        {
            if (curve[f] > curve[best])
                best = f;
        }
        if (best == 0 || best == curve.Length - 1)
            return best;
        var (a, b, c) = (curve[best - 1], curve[best], curve[best + 1]);
        var bend = a - 2 * b + c;
        return bend < 0 ? best + Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5) : best;
    }
}
