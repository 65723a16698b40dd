namespace Harkbook.Listening.Estimators.Beats;

/// <summary>One way to hear the beat, with what the sound does on and between its beats.</summary>
internal sealed class BeatGrid
{
    private readonly RhythmCurves curves;
    private readonly Dictionary<double, CueTable> read = [];
    private Placement? placement;

    public BeatGrid(double[] times, double pulseScore, RhythmCurves curves)
    {
        Times = times;
        PulseScore = pulseScore;
        this.curves = curves;
        var gaps = times.Skip(1).Zip(times, (b, a) => b - a).Order().ToArray();
        Interval = gaps.Length == 0 ? 0.5 : gaps[gaps.Length / 2];
    }

    /// <summary>Seconds, rising.</summary>
    public double[] Times { get; }

    public double PulseScore { get; }

    /// <summary>The middle distance between beats in seconds.</summary>
    public double Interval { get; }

    public double BeatsPerMinute => 60 / Interval;

    /// <summary>The cues at a fraction of the way from each beat to the next; 0 is on the beat.</summary>
    public CueTable At(double fraction)
    {
        if (!read.TryGetValue(fraction, out var table))
            read[fraction] = table = CueTable.Read(curves, Places(fraction), Interval);
        return table;
    }

    public Placement Placement => placement ??= new(this, curves.Onsets);

    /// <summary>The cues at places that have nothing to do with the beat, to compare with.</summary>
    public CueTable Anywhere()
    {
        const double Step = 0.137;
        var count = Math.Max(2, (int)((Times[^1] - Times[0]) / Step));
        return CueTable.Read(curves, [.. Enumerable.Range(0, count).Select(k => Times[0] + k * Step)], Interval);
    }

    private double[] Places(double fraction) =>
        fraction == 0 ? Times : [.. Times.Skip(1).Zip(Times, (next, time) => time + fraction * (next - time))];
}
