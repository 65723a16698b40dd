namespace Harkbook.Units;

internal static class Finite
{
    public static double Required(double value, string name) =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A finite number is needed; a division by zero or a bad sample is the likely cause.");
}
