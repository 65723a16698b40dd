namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Which pulse intervals a recording may have: tops of the autocorrelation of its onsets over stretches of 12 s, weighted by a prior
/// that is log-normal around a walking tempo, as in D. P. W. Ellis, "Beat tracking by dynamic programming", JNMR 36 (2007),
/// and simple multiples of them, so that the right metrical level is among the answers.
/// </summary>
internal static class Tempogram
{
    private const double Stretch = 12;
    private static readonly double[] Relations = [1, 2, 0.5, 3, 1 / 3.0, 1.5, 2 / 3.0];

    /// <returns>Intervals in frames, the likeliest first, no two within 8 %.</returns>
    public static List<double> Intervals(float[] onsets, int first, int last, double frameRate, BeatOptions options)
    {
        var shortest = (int)(60 * frameRate / options.FastestBeatsPerMinute);
        var longest = (int)Math.Ceiling(60 * frameRate / options.SlowestBeatsPerMinute);
        var strength = Autocorrelation(onsets, first, last, 2 * longest, (int)(Stretch * frameRate));
        var tops = Tops(strength, frameRate, shortest / 2, 2 * longest - 1).Take(4).ToList();
        var found = new List<double>();
        foreach (var relation in Relations)
        {
            foreach (var top in tops)
            {
                var interval = top * relation;
                if (interval >= shortest && interval <= longest && !found.Any(x => Math.Abs(Math.Log(x / interval)) < 0.08))
                    found.Add(interval);
            }
        }
        return found;
    }

    /// <summary>1 at 108 beats a minute, falling by one standard deviation (e^−½) for each 0.8 octaves.</summary>
    public static double Prior(double interval, double frameRate) =>
        Math.Exp(-0.5 * Math.Pow(Math.Log2(60 * frameRate / interval / 108) / 0.8, 2));

    private static double[] Autocorrelation(float[] onsets, int first, int last, int longest, int stretch)
    {
        var sum = new double[longest + 1];
        for (var start = first; start < last; start += stretch / 2)
        {
            var end = Math.Min(last, start + stretch);
            for (var lag = 1; lag <= longest && start + lag < end; lag++)
                sum[lag] += Product(onsets.AsSpan(start, end - start), lag);
        }
        return sum;
    }

    private static double Product(ReadOnlySpan<float> x, int lag)
    {
        var sum = 0.0;
        for (var i = lag; i < x.Length; i++)
            sum += x[i] * x[i - lag];
        return sum / (x.Length - lag + 100.0);
    }

    private static IEnumerable<double> Tops(double[] strength, double frameRate, int shortest, int longest) =>
        Enumerable.Range(shortest, longest - shortest)
            .Where(lag => strength[lag] >= strength[lag - 1] && strength[lag] > strength[lag + 1])
            .OrderByDescending(lag => strength[lag] * Prior(lag, frameRate))
            .Select(lag => (double)lag);
}
