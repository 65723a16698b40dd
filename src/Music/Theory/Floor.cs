namespace Harkbook.Music.Theory;

/// <summary>Division that rounds down, so that negative places on a circle wrap as positive ones do.</summary>
internal static class Floor
{
    public static int Mod(int value, int modulus) => (value % modulus + modulus) % modulus;

    public static int Div(int value, int divisor) => (value - Mod(value, divisor)) / divisor;
}
