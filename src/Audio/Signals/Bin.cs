namespace Harkbook.Audio.Signals;

/// <summary>One complex value of a spectrum.</summary>
public readonly record struct Bin(float Real, float Imaginary)
{
    public float Power => Real * Real + Imaginary * Imaginary;

    public float Magnitude => MathF.Sqrt(Power);

    /// <summary>Radians, −π to π.</summary>
    public float Phase => MathF.Atan2(Imaginary, Real);
}
