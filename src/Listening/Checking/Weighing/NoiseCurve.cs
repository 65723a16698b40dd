using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Checking.Weighing;

/// <summary>
/// How much new sound starts at once, pitched or not: what the bands that tell moments apart gain over two frames, against the recording's median.
/// </summary>
internal sealed class NoiseCurve
{
    private const int Back = 2;
    private const double Least = 0.1;

    private readonly float[] gains;
    private readonly double median = 1;

    public NoiseCurve(IPulseBands bands)
    {
        const int Width = PulseBands.Moments.Bands;
        gains = new float[bands.Frames];
        var rows = new float[bands.Frames * Width];
        bands.FillMoments(0, bands.Frames, rows, CancellationToken.None);
        for (var i = Back * Width; i < rows.Length; i++)
            gains[i / Width] += Math.Max(0, rows[i] - rows[i - Back * Width]);
        if (gains.Length > 0)
            median = gains.Order().ElementAt(gains.Length / 2) + 1e-6;
    }

    /// <summary>The logarithm of the greatest gain between two times over the median.</summary>
    public double Strongest(double from, double to)
    {
        var most = 0f;
        for (var f = Frame(from); f <= Frame(to) && gains.Length > 0; f++)
            most = Math.Max(most, gains[f]);
        return Math.Log(most / median + Least);
    }

    private int Frame(double time) => Math.Clamp((int)Math.Round(time * PulseBands.FrameRate), 0, Math.Max(0, gains.Length - 1));
}
