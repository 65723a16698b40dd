namespace Harkbook.Audio.Synthesis;

/// <summary>A second-order filter that runs sample by sample; designs after R. Bristow-Johnson's "Audio EQ Cookbook" (W3C note).</summary>
internal struct RunningFilter
{
    private readonly double b0, b1, b2, a1, a2;
    private double s1, s2;

    public RunningFilter(double b0, double b1, double b2, double a1, double a2) =>
        (this.b0, this.b1, this.b2, this.a1, this.a2) = (b0, b1, b2, a1, a2);

    /// <summary>Peak gain 1 at the centre.</summary>
    public static RunningFilter BandPass(double centre, double q, double rate)
    {
        var (cos, alpha) = Angles(centre, q, rate);
        return Normal(alpha, 0, -alpha, 1 + alpha, -2 * cos, 1 - alpha);
    }

    public static RunningFilter HighPass(double corner, double q, double rate)
    {
        var (cos, alpha) = Angles(corner, q, rate);
        return Normal((1 + cos) / 2, -(1 + cos), (1 + cos) / 2, 1 + alpha, -2 * cos, 1 - alpha);
    }

    public double Next(double x)
    {
        var y = b0 * x + s1;
        s1 = b1 * x - a1 * y + s2;
        s2 = b2 * x - a2 * y;
        return y;
    }

    private static RunningFilter Normal(double b0, double b1, double b2, double a0, double a1, double a2) =>
        new(b0 / a0, b1 / a0, b2 / a0, a1 / a0, a2 / a0);

    private static (double Cos, double Alpha) Angles(double frequency, double q, double rate)
    {
        var w = 2 * Math.PI * Math.Min(frequency, 0.49 * rate) / rate;
        return (Math.Cos(w), Math.Sin(w) / (2 * q));
    }
}
