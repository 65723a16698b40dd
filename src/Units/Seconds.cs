using System.Globalization;

namespace Harkbook.Units;

/// <summary>A time in a recording, or a length of time.</summary>
public readonly record struct Seconds : IComparable<Seconds>
{
    private Seconds(double value) => Value = value;

    /// <summary>Seconds.</summary>
    public double Value { get; }

    public static Seconds FromSeconds(double value) => new(Finite.Required(value, nameof(value)));

    public static Seconds FromMilliseconds(double value) => new(Finite.Required(value, nameof(value)) / 1000);

    public static Seconds operator +(Seconds a, Seconds b) => new(a.Value + b.Value);
    public static Seconds operator -(Seconds a, Seconds b) => new(a.Value - b.Value);
    public static Seconds operator *(Seconds a, double factor) => new(a.Value * factor);
    public static double operator /(Seconds a, Seconds b) => a.Value / b.Value;

    public static bool operator <(Seconds a, Seconds b) => a.Value < b.Value;
    public static bool operator >(Seconds a, Seconds b) => a.Value > b.Value;
    public static bool operator <=(Seconds a, Seconds b) => a.Value <= b.Value;
    public static bool operator >=(Seconds a, Seconds b) => a.Value >= b.Value;

    public int CompareTo(Seconds other) => Value.CompareTo(other.Value);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} s");
}
