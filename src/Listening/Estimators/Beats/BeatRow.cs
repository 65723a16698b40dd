namespace Harkbook.Listening.Estimators.Beats;

/// <summary>The decoded row of beats, with how far the best other answers fall behind it.</summary>
internal sealed class BeatRow
{
    /// <summary>Other tempi a listener might tap, as multiples of the interval.</summary>
    public static double[] Ratios { get; } = [1, 2, 0.5, 1.5, 2 / 3.0, 3, 1 / 3.0, 4, 0.25, 4 / 3.0, 0.75];

    private const double Near = 0.11;
    private const int Tolerance = 3;

    private readonly PulseScores scores;
    private readonly float[] marginals;
    private readonly int first;

    /// <param name="marginals">Of <see cref="BarPointer.Marginals"/>.</param>
    /// <param name="first">The frame that the marginals start at.</param>
    public BeatRow(List<DecodedBeat> beats, PulseScores scores, float[] marginals, int first)
    {
        (Beats, this.scores, this.marginals, this.first) = (beats, scores, marginals, first);
        Best = marginals.Length == 0 ? 0 : marginals.Max();
    }

    public List<DecodedBeat> Beats { get; }

    public float Best { get; }

    /// <summary>The same beats at other places of their bars.</summary>
    public BeatRow Placed(List<DecodedBeat> beats) => new(beats, scores, marginals, first);

    /// <summary>How much worse the best row is that has no beat near a decoded one; 0 or more.</summary>
    public double LossWithout(int index)
    {
        var frame = Beats[index].Frame;
        return Best - Top(frame - Tolerance, frame + Tolerance, _ => true);
    }

    /// <summary>For each of <see cref="Ratios"/>: how much worse the best row is whose interval between two beats is that multiple.</summary>
    public double[] LossesAt(int index)
    {
        var (frame, interval) = (Beats[index].Frame - Beats[index].Interval / 2, Beats[index].Interval);
        return [.. Ratios.Select(r => (double)(Best - Top(frame, frame, i => Math.Abs(Math.Log((scores.Shortest + i) / (r * interval))) < Near)))];
    }

    /// <summary>The best score of a row one of whose intervals starts before one frame and ends after another.</summary>
    private float Top(int from, int to, Func<int, bool> wanted)
    {
        var top = -1e9f;
        var frames = marginals.Length / Math.Max(1, scores.Intervals);
        for (var i = 0; i < scores.Intervals; i++)
        {
            if (!wanted(i))
                continue;
            for (var t = Math.Max(to + 1, first); t < Math.Min(from + scores.Shortest + i, first + frames); t++)
                top = Math.Max(top, marginals[(t - first) * scores.Intervals + i]);
        }
        return top;
    }
}
