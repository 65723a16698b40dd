using System.Globalization;

namespace Harkbook.Units;

/// <summary>A frequency.</summary>
public readonly record struct Hertz : IComparable<Hertz>
{
    private Hertz(double value) => Value = value;

    /// <summary>Cycles a second.</summary>
    public double Value { get; }

    public static Hertz FromHertz(double value) => new(Finite.Required(value, nameof(value)));

    /// <summary>Concert A in the standard pitch (ISO 16:1975).</summary>
    public static Hertz A440 { get; } = new(440);

    /// <summary>This frequency raised (or lowered) by an interval in cents.</summary>
    public Hertz Raised(Cents by) => new(Value * Math.Pow(2, by.Value / 1200));

    public static Hertz operator +(Hertz a, Hertz b) => new(a.Value + b.Value);
    public static Hertz operator -(Hertz a, Hertz b) => new(a.Value - b.Value);
    public static Hertz operator *(Hertz a, double factor) => new(a.Value * factor);
    public static double operator /(Hertz a, Hertz b) => a.Value / b.Value;

    public static bool operator <(Hertz a, Hertz b) => a.Value < b.Value;
    public static bool operator >(Hertz a, Hertz b) => a.Value > b.Value;
    public static bool operator <=(Hertz a, Hertz b) => a.Value <= b.Value;
    public static bool operator >=(Hertz a, Hertz b) => a.Value >= b.Value;

    public int CompareTo(Hertz other) => Value.CompareTo(other.Value);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Value:0.###} Hz");
}
