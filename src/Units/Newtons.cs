using System.Globalization;

namespace Harkbook.Units;

/// <summary>A force: what a string pulls with.</summary>
public readonly record struct Newtons : IComparable<Newtons>
{
    private const double OfPoundForce = 4.4482216152605;

    private Newtons(double value) => Value = value;

    /// <summary>Newtons.</summary>
    public double Value { get; }

    /// <summary>Pounds of force; one is 4.4482216152605 N exactly (the 1959 pound under standard gravity).</summary>
    public double PoundsForce => Value / OfPoundForce;

    public static Newtons FromNewtons(double value) => new(Finite.Required(value, nameof(value)));

    public static Newtons FromPoundsForce(double value) => new(Finite.Required(value, nameof(value)) * OfPoundForce);

    public static Newtons operator +(Newtons a, Newtons b) => new(a.Value + b.Value);
    public static Newtons operator -(Newtons a, Newtons b) => new(a.Value - b.Value);
    public static Newtons operator *(Newtons a, double factor) => new(a.Value * factor);
    public static double operator /(Newtons a, Newtons b) => a.Value / b.Value;

    public static bool operator <(Newtons a, Newtons b) => a.Value < b.Value;
    public static bool operator >(Newtons a, Newtons b) => a.Value > b.Value;
    public static bool operator <=(Newtons a, Newtons b) => a.Value <= b.Value;
    public static bool operator >=(Newtons a, Newtons b) => a.Value >= b.Value;

    public int CompareTo(Newtons other) => Value.CompareTo(other.Value);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.#} N");
}
