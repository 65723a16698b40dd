namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Finds the ways in which the beat of a recording could be heard: several tempos, and for each two places of the beat.</summary>
internal sealed class GridFinder(RhythmCurves curves, BeatOptions options)
{
    private const double ChangeCost = 30;
    private const double TempoSpread = 1.25;
    private const float Suppressed = -1.2f;

    public List<BeatGrid> Find(BeatActivation activation, CancellationToken cancellation)
    {
        var grids = new List<BeatGrid>();
        foreach (var interval in Tempogram.Intervals(curves.All, curves.FirstSound, curves.LastSound, RhythmCurves.FrameRate, options))
        {
            var pulse = Track(activation.Beat, interval, cancellation);
            if (pulse is null)
                continue;
            Add(grids, pulse, activation);
            if (Track(Without(activation.Beat, pulse), interval, cancellation) is { } other)
                Add(grids, other, activation);
            Add(grids, Between(pulse), activation);
            foreach (var steady in SteadyPulse.Around(activation.Beat, curves.FirstSound, curves.LastSound, interval))
                Add(grids, steady, activation);
        }
        return grids;
    }

    private Pulse? Track(float[] beat, double interval, CancellationToken cancellation) =>
        new PulseTracker(beat, curves.FirstSound, curves.LastSound, ChangeCost).Track(interval, TempoSpread, cancellation);

    private void Add(List<BeatGrid> grids, Pulse pulse, BeatActivation activation)
    {
        var times = pulse.Frames.Select(f => f / RhythmCurves.FrameRate).ToArray();
        if (times.Length >= 4 && !grids.Any(g => Same(g.Times, times)))
            grids.Add(new(times, pulse.Frames.Average(f => Curve.Peak(activation.Beat, f, 1)), curves));
    }

    /// <summary>The pulses half way between those of another train.</summary>
    private static Pulse Between(Pulse pulse) =>
        new([.. pulse.Frames.Skip(1).Zip(pulse.Frames, (b, a) => (a + b) / 2)], pulse.Score);

    /// <summary>The same evidence with the found beats taken away, so that the next search finds another place for the beat.</summary>
    private static float[] Without(float[] beat, Pulse pulse)
    {
        var rest = (float[])beat.Clone();
        foreach (var frame in pulse.Frames)
        {
            for (var f = Math.Max(0, (int)frame - 7); f <= Math.Min(rest.Length - 1, (int)frame + 7); f++)
                rest[f] = Math.Min(rest[f], Suppressed);
        }
        return rest;
    }

    private static bool Same(double[] a, double[] b)
    {
        if (Math.Abs(a.Length - b.Length) > 0.1 * a.Length)
            return false;
        var near = a.Count(t => b.Any(u => Math.Abs(t - u) < 0.03));
        return near > 0.9 * Math.Max(a.Length, b.Length);
    }
}
