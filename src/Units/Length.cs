using System.Globalization;

namespace Harkbook.Units;

/// <summary>A length in space: a guitar's scale, how far two fingers stand apart.</summary>
public readonly record struct Length : IComparable<Length>
{
    private Length(double millimetres) => Millimetres = millimetres;

    public double Millimetres { get; }

    public double Inches => Millimetres / 25.4;

    public static Length FromMillimetres(double value) => new(Finite.Required(value, nameof(value)));

    /// <summary>An inch is 25.4 mm exactly (the 1959 agreement).</summary>
    public static Length FromInches(double value) => new(Finite.Required(value, nameof(value)) * 25.4);

    public static Length operator +(Length a, Length b) => new(a.Millimetres + b.Millimetres);
    public static Length operator -(Length a, Length b) => new(a.Millimetres - b.Millimetres);
    public static Length operator *(Length a, double factor) => new(a.Millimetres * factor);
    public static double operator /(Length a, Length b) => a.Millimetres / b.Millimetres;

    public static bool operator <(Length a, Length b) => a.Millimetres < b.Millimetres;
    public static bool operator >(Length a, Length b) => a.Millimetres > b.Millimetres;
    public static bool operator <=(Length a, Length b) => a.Millimetres <= b.Millimetres;
    public static bool operator >=(Length a, Length b) => a.Millimetres >= b.Millimetres;

    public int CompareTo(Length other) => Millimetres.CompareTo(other.Millimetres);

    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Millimetres:0.#} mm");
}
