using Harkbook.Units;

namespace Harkbook.Audio.Synthesis.Strings;

/// <summary>
/// How stiff one string is: its partials lie at n·f₁·√((1 + B·n²)/(1 + B)) (Fletcher, JASA 36, 1964), and B grows with the square of the
/// frequency to which a finger or capo stops it.
/// </summary>
/// <param name="Open">What the whole string sounds.</param>
/// <param name="B">Of the whole string; 0 to 0.001.</param>
public readonly record struct StringStiffness(Hertz Open, double B)
{
    /// <summary>B where the string is stopped to sound a frequency.</summary>
    public double At(double frequency) => B * Math.Pow(frequency / Open.Value, 2);
}
