namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>A spectral peak taken for a low partial.</summary>
/// <param name="Seconds">Where it was seen.</param>
/// <param name="Hertz">Interpolated frequency.</param>
/// <param name="Weight">Prominence; 0 upward.</param>
internal readonly record struct Partial(double Seconds, double Hertz, double Weight)
{
    /// <summary>Cents from the nearest semitone of A440.</summary>
    public double Deviation => CircularCents.Wrapped(1200 * Math.Log2(Hertz / 440));
}
