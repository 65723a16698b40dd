using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Synthesis;

/// <summary>
/// Programme loudness after ITU-R BS.1770-4: K-weighting, 400 ms blocks with 75 % overlap, gates at −70 LUFS and 10 LU
/// below the ungated mean. The filters' design constants give the standard's 48 kHz coefficients at 48 kHz and their
/// like at other rates.
/// </summary>
public static class Loudness
{
    /// <summary>LUFS of one or two channels; negative infinity when nothing passes the gate.</summary>
    public static double Of(Signal signal)
    {
        var step = signal.Rate.Hertz / 10;
        var steps = new double[signal.Length / step];
        foreach (var channel in signal.Channels)
            AddSquares(channel, signal.Rate.Hertz, step, steps);
        var blocks = Enumerable.Range(0, Math.Max(0, steps.Length - 3)).Select(i => (steps[i] + steps[i + 1] + steps[i + 2] + steps[i + 3]) / (4.0 * step)).ToArray();
        var loud = Above(blocks, -70);
        return loud.Length == 0 ? double.NegativeInfinity : Level(Above(loud, Level(loud) - 10));
    }

    private static double[] Above(double[] blocks, double gate) => [.. blocks.Where(b => Decibels(b) > gate)];

    private static double Level(double[] blocks) => Decibels(blocks.Average());

    private static double Decibels(double meanSquare) => -0.691 + 10 * Math.Log10(meanSquare);

    private static void AddSquares(float[] channel, double rate, int step, double[] steps)
    {
        var (shelf, highPass) = (Shelf(rate), HighPass(rate));
        for (var i = 0; i < steps.Length * step; i++)
        {
            var y = highPass.Next(shelf.Next(channel[i]));
            steps[i / step] += y * y;
        }
    }

    private static Biquad Shelf(double rate)
    {
        const double gain = 3.999843853973347, q = 0.7071752369554196;
        var k = Math.Tan(Math.PI * 1681.974450955533 / rate);
        var high = Math.Pow(10, gain / 20);
        var middle = Math.Pow(high, 0.4996667741545416);
        var a0 = 1 + k / q + k * k;
        return new((high + middle * k / q + k * k) / a0, 2 * (k * k - high) / a0, (high - middle * k / q + k * k) / a0, 2 * (k * k - 1) / a0, (1 - k / q + k * k) / a0);
    }

    private static Biquad HighPass(double rate)
    {
        const double q = 0.5003270373238773;
        var k = Math.Tan(Math.PI * 38.13547087602444 / rate);
        var a0 = 1 + k / q + k * k;
        return new(1, -2, 1, 2 * (k * k - 1) / a0, (1 - k / q + k * k) / a0);
    }
}
