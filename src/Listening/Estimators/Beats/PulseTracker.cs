namespace Harkbook.Listening.Estimators.Beats;

/// <summary>A train of pulses through a recording, in frames, and how well it fits (mean score a pulse).</summary>
internal sealed record Pulse(double[] Frames, double Score)
{
    /// <summary>The middle distance between pulses, in frames.</summary>
    public double Interval { get; } = Median(Frames);

    private static double Median(double[] frames)
    {
        var gaps = frames.Skip(1).Zip(frames, (b, a) => b - a).Order().ToArray();
        return gaps.Length == 0 ? 0 : gaps[gaps.Length / 2];
    }
}

/// <summary>
/// The best train of pulses near one tempo. The state is the bar-pointer model's as made efficient by F. Krebs, S. Böck and
/// G. Widmer, "An efficient state-space model for joint tempo and meter tracking", ISMIR 2015: tempo may change only at a pulse,
/// and a change costs in proportion to its size. Between pulses nothing can change, so the search steps from pulse to pulse.
/// </summary>
internal sealed class PulseTracker
{
    private readonly float[] activation;
    private readonly int first;
    private readonly int last;
    private readonly double changeCost;

    /// <param name="activation">Log-odds-like evidence for a pulse, a frame each.</param>
    /// <param name="first">The first frame of music; the first pulse lies within one interval of it.</param>
    /// <param name="last">The last frame of music.</param>
    /// <param name="changeCost">Cost of a change of interval by 100 %, in units of the activation.</param>
    public PulseTracker(float[] activation, int first, int last, double changeCost) =>
        (this.activation, this.first, this.last, this.changeCost) = (activation, first, last, changeCost);

    /// <param name="centre">The expected interval in frames.</param>
    /// <param name="spread">How far the interval may stray from it, as a factor above 1.</param>
    public Pulse? Track(double centre, double spread, CancellationToken cancellation)
    {
        var shortest = Math.Max(4, (int)Math.Round(centre / spread));
        var intervals = Math.Max(1, (int)Math.Round(centre * spread) - shortest + 1);
        if (last - first < shortest + intervals)
            return null;
        var changes = ChangeCosts(shortest, intervals);
        var strays = StrayCosts(shortest, intervals, centre);
        var frames = last - first + 1;
        var best = new float[frames, intervals];
        var from = new short[frames, intervals];
        for (var t = 0; t < frames; t++)
        {
            if (t % 1024 == 0)
                cancellation.ThrowIfCancellationRequested();
            for (var i = 0; i < intervals; i++)
                Step(t, i, shortest, best, from, changes, strays);
        }
        return Trace(best, from, shortest, intervals, frames);
    }

    private void Step(int t, int i, int shortest, float[,] best, short[,] from, float[][] changes, float[] strays)
    {
        var before = t - (shortest + i);
        var evidence = activation[first + t] - strays[i];
        if (before < 0)
        {
            (best[t, i], from[t, i]) = (evidence, -1);
            return;
        }
        var costs = changes[i];
        var top = float.NegativeInfinity;
        var choice = 0;
        for (var j = Math.Max(0, i - Reach(shortest + i)); j < Math.Min(costs.Length, i + Reach(shortest + i) + 1); j++)
        {
            var score = best[before, j] - costs[j];
            if (score > top)
                (top, choice) = (score, j);
        }
        (best[t, i], from[t, i]) = (top + evidence, (short)choice);
    }

    private static int Reach(int interval) => 2 + interval / 5;

    private Pulse Trace(float[,] best, short[,] from, int shortest, int intervals, int frames)
    {
        var (t, i) = (frames - 1, 0);
        for (var u = Math.Max(0, frames - shortest - intervals / 2); u < frames; u++)
        {
            for (var j = 0; j < intervals; j++)
            {
                if (best[u, j] > best[t, i])
                    (t, i) = (u, j);
            }
        }
        var score = best[t, i];
        var pulses = new List<double>();
        for (var on = true; on;)
        {
            pulses.Add(first + t);
            var step = shortest + i;
            on = from[t, i] >= 0;
            if (on)
                (t, i) = (t - step, from[t, i]);
        }
        pulses.Reverse();
        return new([.. pulses], score / pulses.Count);
    }

    private float[][] ChangeCosts(int shortest, int intervals) =>
        [.. Enumerable.Range(0, intervals).Select(i => Enumerable.Range(0, intervals)
            .Select(j => (float)(changeCost * Math.Abs(Math.Log((shortest + i) / (double)(shortest + j))))).ToArray())];

    private static float[] StrayCosts(int shortest, int intervals, double centre) =>
        [.. Enumerable.Range(0, intervals).Select(i => (float)(0.5 * Math.Pow(Math.Log((shortest + i) / centre) / 0.15, 2)))];
}
