namespace Harkbook.Audio.Synthesis;

/// <summary>
/// Repeatable randomness: the same seed gives the same numbers on every machine and runtime.
/// The generator is SplitMix64 (Steele, Lea &amp; Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
/// </summary>
public sealed class Noise(int seed)
{
    private ulong state = unchecked((ulong)seed);

    /// <summary>Even over −1 to 1.</summary>
    public double Next() => (Bits() >> 11) * (2.0 / (1UL << 53)) - 1;

    /// <summary>Normal with mean 0 and deviation 1 (Box–Muller).</summary>
    public double NextNormal()
    {
        var radius = Math.Sqrt(-2 * Math.Log(1 - (Next() + 1) / 2));
        return radius * Math.Cos(Math.PI * Next());
    }

    private ulong Bits()
    {
        state += 0x9E3779B97F4A7C15UL;
        var z = state;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
