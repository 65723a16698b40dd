using Harkbook.Units;

namespace Harkbook.Music.Instruments.Strings;

/// <summary>
/// What a string weighs along its length, which with its pitch and the neck's scale gives its tension. A plain steel string's
/// weight follows from its diameter; a wound one's stands in its maker's table.
/// </summary>
public readonly record struct StringWeight
{
    private const double KilogramsInPound = 0.45359237;

    /// <summary>Kilograms a cubic metre of steel wire, a textbook value.</summary>
    private const double Steel = 7850;

    private StringWeight(double kilogramsPerMetre) => KilogramsPerMetre = kilogramsPerMetre;

    public double KilogramsPerMetre { get; }

    /// <summary>As string makers print it: the "unit weight".</summary>
    public double PoundsPerInch => KilogramsPerMetre * 0.0254 / KilogramsInPound;

    /// <param name="value">Above 0.</param>
    public static StringWeight FromKilogramsPerMetre(double value) => new(Above0(value));

    /// <param name="value">Above 0.</param>
    public static StringWeight FromPoundsPerInch(double value) => new(Above0(value) * KilogramsInPound / 0.0254);

    /// <summary>A plain steel string: its cross-section times the density of steel.</summary>
    public static StringWeight PlainSteel(Length diameter) => new(Above0(Math.PI / 4 * Math.Pow(diameter.Millimetres / 1000, 2) * Steel));

    /// <summary>
    /// The tension at a pitch, μ (2 L f)²: the law of the vibrating string (Mersenne). String makers print it as
    /// unit weight × (2 × scale × frequency)² / 386.4 in pounds and inches, which is the same.
    /// </summary>
    public Newtons Tension(Length scale, Hertz pitch) => Newtons.FromNewtons(KilogramsPerMetre * Math.Pow(2 * scale.Millimetres / 1000 * pitch.Value, 2));

    private static double Above0(double value) =>
        value > 0 && double.IsFinite(value) ? value : throw new ArgumentOutOfRangeException(nameof(value), value, "A string weighs more than nothing.");
}
