namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Trains of pulses at one unchanging tempo, as of players who follow a click: what holds a beat together through rests and held notes.</summary>
internal static class SteadyPulse
{
    private const double Stray = 0.04;
    private const double OtherPlace = 0.15;

    /// <summary>The best tempo within 4 % of an interval with the best place of its beat, and the next best place at that tempo.</summary>
    /// <param name="activation">Log-odds-like evidence for a pulse, a frame each.</param>
    /// <param name="first">The first frame of music.</param>
    /// <param name="last">The last frame of music.</param>
    /// <param name="interval">Frames from pulse to pulse.</param>
    public static IEnumerable<Pulse> Around(float[] activation, int first, int last, double interval)
    {
        if (last - first < 4 * interval)
            yield break;
        var near = Near(activation);
        var step = 0.5 * interval / (last - first);
        var best = (Score: double.NegativeInfinity, Interval: interval, Phase: 0.0);
        for (var stray = -Stray; stray <= Stray; stray += step)
        {
            var found = BestPhase(near, first, last, interval * (1 + stray), double.NaN);
            if (found.Score > best.Score)
                best = (found.Score, interval * (1 + stray), found.Phase);
        }
        yield return Train(first, last, best.Interval, best.Phase, best.Score);
        var other = BestPhase(near, first, last, best.Interval, best.Phase);
        yield return Train(first, last, best.Interval, other.Phase, other.Score);
    }

    private static (double Score, double Phase) BestPhase(float[] near, int first, int last, double interval, double notNear)
    {
        var best = (Score: double.NegativeInfinity, Phase: 0.0);
        for (var phase = -2.0; phase < interval - 2; phase += 1)
        {
            var away = Math.Abs(phase - notNear) / interval;
            if (Math.Min(away, 1 - away) < OtherPlace)
                continue;
            var score = Score(near, first + phase, last, interval);
            if (score > best.Score)
                best = (score, phase);
        }
        return best;
    }

    private static double Score(float[] near, double start, int last, double interval)
    {
        double sum = 0;
        var count = 0;
        for (var frame = start; frame <= last + 2; frame += interval, count++)
            sum += near[Math.Clamp((int)Math.Round(frame), 0, near.Length - 1)];
        return sum / Math.Max(1, count);
    }

    /// <summary>A pulse may be two frames late or early.</summary>
    private static float[] Near(float[] activation) =>
        [.. Enumerable.Range(0, activation.Length).Select(f => Curve.Peak(activation, f, 2))];

    private static Pulse Train(int first, int last, double interval, double phase, double score)
    {
        var frames = new List<double>();
        for (var frame = first + phase; frame <= last + 2; frame += interval)
            frames.Add(Math.Max(0, frame));
        return new([.. frames], score);
    }
}
