using System.Collections.Immutable;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// How many semitones the overtones of a string lie above it: the second to the eighth partial of equal-tempered pitch (12·log2 n, rounded), of which
/// the seventh falls between semitones.
/// </summary>
internal static class Overtones
{
    public static ImmutableArray<int> Semitones { get; } = [12, 19, 24, 28, 31, 34, 36];

    /// <summary>Those of the second to the fourth partial, which alone are as strong as a string of their own may be.</summary>
    public static ImmutableArray<int> Strong { get; } = Semitones[..3];

    public static bool Has(int semitones) => Semitones.Contains(semitones);
}
