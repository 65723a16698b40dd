using System.Globalization;
using System.Numerics;

namespace Harkbook.Units;

/// <summary>
/// Musical time as an exact fraction of the felt beat (a quarter in 4/4, a dotted quarter in 6/8):
/// a place in a bar counted from 0, or a length.
/// </summary>
public readonly record struct Beats : IComparable<Beats>
{
    private readonly int denominatorLessOne;

    private Beats(long numerator, long denominator)
    {
        var shared = (long)BigInteger.GreatestCommonDivisor(numerator, denominator);
        Numerator = checked((int)(numerator / shared));
        denominatorLessOne = checked((int)(denominator / shared) - 1);
    }

    public int Numerator { get; }

    /// <summary>Always positive; the fraction is in lowest terms.</summary>
    public int Denominator => denominatorLessOne + 1;

    public double Value => (double)Numerator / Denominator;

    public static Beats Zero => default;

    public static Beats Whole(int beats) => new(beats, 1);

    public static Beats Fraction(int numerator, int denominator) =>
        denominator > 0
            ? new(numerator, denominator)
            : throw new ArgumentOutOfRangeException(nameof(denominator), denominator, "A fraction of a beat needs a positive denominator.");

    public static Beats operator +(Beats a, Beats b) =>
        new((long)a.Numerator * b.Denominator + (long)b.Numerator * a.Denominator, (long)a.Denominator * b.Denominator);

    public static Beats operator -(Beats a, Beats b) => a + b * -1;

    public static Beats operator *(Beats a, int factor) => new((long)a.Numerator * factor, a.Denominator);

    public static Beats operator /(Beats a, int divisor) =>
        divisor > 0
            ? new(a.Numerator, (long)a.Denominator * divisor)
            : throw new ArgumentOutOfRangeException(nameof(divisor), divisor, "Beats are divided by a positive number.");

    public static bool operator <(Beats a, Beats b) => a.CompareTo(b) < 0;
    public static bool operator >(Beats a, Beats b) => a.CompareTo(b) > 0;
    public static bool operator <=(Beats a, Beats b) => a.CompareTo(b) <= 0;
    public static bool operator >=(Beats a, Beats b) => a.CompareTo(b) >= 0;

    public int CompareTo(Beats other) =>
        ((long)Numerator * other.Denominator).CompareTo((long)other.Numerator * Denominator);

    public override string ToString() =>
        Denominator == 1 ? Numerator.ToString(CultureInfo.InvariantCulture) : $"{Numerator}/{Denominator}";
}
