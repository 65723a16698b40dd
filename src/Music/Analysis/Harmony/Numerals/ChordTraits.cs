using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>What a chord's quality holds, whatever else it holds.</summary>
internal static class ChordTraits
{
    public static bool HasMajorThird(ChordQuality quality) => Has(quality, 4);

    public static bool HasMinorThird(ChordQuality quality) => Has(quality, 3) && !Has(quality, 4);

    public static bool IsDominantSeventh(ChordQuality quality) => Has(quality, 4) && Has(quality, 10);

    /// <summary>Minor third and diminished fifth, no seventh or a minor or diminished one.</summary>
    public static bool IsDiminished(ChordQuality quality) => HasMinorThird(quality) && Has(quality, 6) && !Has(quality, 7);

    public static bool IsAugmented(ChordQuality quality) => HasMajorThird(quality) && Has(quality, 8) && !Has(quality, 7);

    public static bool IsDiminishedSeventh(ChordQuality quality) => IsDiminished(quality) && Has(quality, 9) && !Has(quality, 10);

    public static bool IsHalfDiminished(ChordQuality quality) => IsDiminished(quality) && Has(quality, 10);

    private static bool Has(ChordQuality quality, int semitones) => quality.PitchClasses.Contains(semitones);
}
