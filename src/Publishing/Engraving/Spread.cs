namespace Harkbook.Publishing.Engraving;

/// <summary>
/// Places of things in a row that should start at given points and may not touch: they give way to each other, and
/// shrink together when giving way would take them too far from their points.
/// </summary>
/// <param name="Miss">The furthest that a thing lies beside its point; 0 when each stands over its own.</param>
internal sealed record Spread(double[] Lefts, double Scale, double Miss)
{
    private const double MostMiss = 9;
    private static readonly double[] Scales = [1, 0.92, 0.85, 0.78, 0.7];

    /// <param name="points">Wished left ends, rising.</param>
    /// <param name="widths">Widths at full size.</param>
    public static Spread Of(double[] points, double[] widths, double left, double right, double gap)
    {
        foreach (var scale in Scales)
        {
            var spread = At(points, widths, left, right, gap, scale);
            if (spread.Miss <= MostMiss && (spread.Lefts.Length == 0 || spread.Lefts[0] >= left - 1e-6))
                return spread;
        }
        var room = right - left;
        var narrow = Math.Min(gap, room / (4 * points.Length));
        var tight = (room - narrow * points.Length) / Math.Max(widths.Sum(), 1e-9);
        return At(points, widths, left, right, narrow, Math.Min(Scales[^1], tight));
    }

    private static Spread At(double[] points, double[] widths, double left, double right, double gap, double scale)
    {
        var lefts = new double[points.Length];
        var edge = left;
        for (var i = 0; i < points.Length; i++)
        {
            lefts[i] = Math.Max(points[i], edge);
            edge = lefts[i] + widths[i] * scale + gap;
        }
        edge = right;
        for (var i = points.Length - 1; i >= 0; i--)
        {
            lefts[i] = Math.Min(lefts[i], edge - widths[i] * scale);
            edge = lefts[i] - gap;
        }
        var miss = points.Select((p, i) => Math.Max(lefts[i] - p, p - lefts[i] - widths[i] * scale)).Append(0).Max();
        return new(lefts, scale, miss);
    }
}
