using Harkbook.Units;

namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>
/// Deviations from the nearest semitone lie on a circle of 100 cents: +49 and −49 are neighbours
/// (N. I. Fisher, "Statistical Analysis of Circular Data", 1993).
/// </summary>
public static class CircularCents
{
    private const double RadiansPerCent = 2 * Math.PI / 100;

    /// <summary>A deviation moved by whole semitones into −50 (included) to 50 cents.</summary>
    public static double Wrapped(double cents) => cents - 100 * Math.Floor((cents + 50) / 100);

    /// <summary>The mean direction and how closely the deviations gather about it (0 = spread evenly, 1 = all equal).</summary>
    public static (Cents Mean, double Gathering) Mean(ReadOnlySpan<double> cents, ReadOnlySpan<double> weights)
    {
        if (cents.Length != weights.Length)
            throw new ArgumentException($"{cents.Length} deviations need as many weights, not {weights.Length}.", nameof(weights));
        var (x, y, total) = (0.0, 0.0, 0.0);
        for (var i = 0; i < cents.Length; i++)
        {
            var (sin, cos) = Math.SinCos(cents[i] * RadiansPerCent);
            (x, y, total) = (x + weights[i] * cos, y + weights[i] * sin, total + weights[i]);
        }
        return total <= 0 ? (default, 0) : (Cents.FromCents(Math.Atan2(y, x) / RadiansPerCent), Math.Sqrt(x * x + y * y) / total);
    }
}
