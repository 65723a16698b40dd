namespace Harkbook.Audio.Synthesis;

/// <summary>A first-order low-pass: y = (1 − p)·x + p·y₋₁.</summary>
internal struct OnePole(double pole)
{
    private double last;

    /// <summary>Half power near a corner in hertz.</summary>
    public static OnePole LowPass(double corner, double rate) => new(Math.Exp(-2 * Math.PI * Math.Min(corner, 0.49 * rate) / rate));

    public double Next(double x) => last = x + pole * (last - x);
}
