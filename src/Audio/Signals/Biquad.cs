using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>
/// A second-order filter, y[n] = b0·x[n] + b1·x[n−1] + b2·x[n−2] − a1·y[n−1] − a2·y[n−2].
/// The designs are those of R. Bristow-Johnson, "Cookbook formulae for audio EQ biquad filter coefficients".
/// </summary>
public readonly record struct Biquad(double B0, double B1, double B2, double A1, double A2)
{
    /// <param name="corner">−3 dB there when q is 1/√2; between 0 and half the rate.</param>
    /// <param name="q">Above 0; 0.7071 is flat without a bump.</param>
    public static Biquad HighPass(SampleRate rate, Hertz corner, double q)
    {
        var (cos, alpha) = Angles(rate, corner, q);
        return Scaled((1 + cos) / 2, -(1 + cos), (1 + cos) / 2, 1 + alpha, -2 * cos, 1 - alpha);
    }

    public static Biquad LowPass(SampleRate rate, Hertz corner, double q)
    {
        var (cos, alpha) = Angles(rate, corner, q);
        return Scaled((1 - cos) / 2, 1 - cos, (1 - cos) / 2, 1 + alpha, -2 * cos, 1 - alpha);
    }

    /// <summary>Peak gain 1 at the centre.</summary>
    public static Biquad BandPass(SampleRate rate, Hertz centre, double q)
    {
        var (cos, alpha) = Angles(rate, centre, q);
        return Scaled(alpha, 0, -alpha, 1 + alpha, -2 * cos, 1 - alpha);
    }

    /// <param name="gain">In dB, far above the corner; half of it at the corner.</param>
    public static Biquad HighShelf(SampleRate rate, Hertz corner, double q, double gain) => Shelf(rate, corner, q, gain, 1);

    /// <param name="gain">In dB, far below the corner; half of it at the corner.</param>
    public static Biquad LowShelf(SampleRate rate, Hertz corner, double q, double gain) => Shelf(rate, corner, q, gain, -1);

    /// <summary>The filter's gain at a frequency, as a factor.</summary>
    public double GainAt(Hertz frequency, SampleRate rate)
    {
        var z = System.Numerics.Complex.FromPolarCoordinates(1, -2 * Math.PI * frequency.Value / rate.Hertz);
        return (((B2 * z + B1) * z + B0) / ((A2 * z + A1) * z + 1)).Magnitude;
    }

    /// <summary>The samples filtered from rest; shape as given.</summary>
    public float[] Filter(ReadOnlySpan<float> samples)
    {
        var result = samples.ToArray();
        new BiquadRun(this).Run(result);
        return result;
    }

    private static Biquad Shelf(SampleRate rate, Hertz corner, double q, double gain, int side)
    {
        var (cos, alpha) = Angles(rate, corner, q);
        var a = Math.Pow(10, gain / 40);
        var (sum, difference, edge) = (a + 1, side * (a - 1), 2 * Math.Sqrt(a) * alpha);
        return Scaled(
            a * (sum + difference * cos + edge), -2 * a * (difference + sum * cos), a * (sum + difference * cos - edge),
            sum - difference * cos + edge, 2 * (difference - sum * cos), sum - difference * cos - edge);
    }

    private static (double Cos, double Alpha) Angles(SampleRate rate, Hertz corner, double q)
    {
        if (!(corner.Value > 0 && corner.Value < rate.Hertz / 2.0))
            throw new ArgumentOutOfRangeException(nameof(corner), corner, $"A filter's corner lies between 0 and half the sample rate, {rate.Hertz / 2.0} Hz.");
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(q);
        var angle = 2 * Math.PI * corner.Value / rate.Hertz;
        return (Math.Cos(angle), Math.Sin(angle) / (2 * q));
    }

    private static Biquad Scaled(double b0, double b1, double b2, double a0, double a1, double a2) =>
        new(b0 / a0, b1 / a0, b2 / a0, a1 / a0, a2 / a0);
}
