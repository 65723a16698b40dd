using System.Globalization;

namespace Harkbook.Units;

/// <summary>An interval size: a hundredth of an equal-tempered semitone.</summary>
public readonly record struct Cents : IComparable<Cents>
{
    private Cents(double value) => Value = value;

    /// <summary>1200·log2 of the frequency ratio.</summary>
    public double Value { get; }

    public static Cents FromCents(double value) => new(Finite.Required(value, nameof(value)));

    /// <summary>The interval from one frequency up to another.</summary>
    public static Cents Between(Hertz from, Hertz to) => new(1200 * Math.Log2(to.Value / from.Value));

    public static Cents operator +(Cents a, Cents b) => new(a.Value + b.Value);
    public static Cents operator -(Cents a, Cents b) => new(a.Value - b.Value);
    public static Cents operator *(Cents a, double factor) => new(a.Value * factor);
    public static double operator /(Cents a, Cents b) => a.Value / b.Value;

    public static bool operator <(Cents a, Cents b) => a.Value < b.Value;
    public static bool operator >(Cents a, Cents b) => a.Value > b.Value;
    public static bool operator <=(Cents a, Cents b) => a.Value <= b.Value;
    public static bool operator >=(Cents a, Cents b) => a.Value >= b.Value;

    public int CompareTo(Cents other) => Value.CompareTo(other.Value);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} cents");
}
