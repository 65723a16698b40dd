using Harkbook.Music.Analysis.Harmony.Numerals;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>What a chord does, by its root, its leading note and where it comes from.</summary>
internal static class FunctionRule
{
    public static HarmonicFunction Of(ChordSetting setting, Reading reading) => reading.Origin.Kind switch
    {
        OriginKind.Applied => HarmonicFunction.LeadsElsewhere,
        OriginKind.AugmentedSixth or OriginKind.Neapolitan => HarmonicFunction.Away,
        OriginKind.TritoneSubstitute => HarmonicFunction.LeadsHome,
        OriginKind.PassingDiminished => HarmonicFunction.None,
        _ => ByRoot(setting, reading.Numeral.SemitonesAboveHome),
    };

    private static HarmonicFunction ByRoot(ChordSetting setting, int root) => root switch
    {
        0 when IsCadential(setting) => HarmonicFunction.LeadsHome,
        0 => HarmonicFunction.Home,
        7 => setting.HasMinorThird ? HarmonicFunction.Away : HarmonicFunction.LeadsHome,
        11 => HarmonicFunction.LeadsHome,
        4 or 9 => HarmonicFunction.NearHome,
        3 or 8 => setting.Key.Mode.IsMinor ? HarmonicFunction.NearHome : HarmonicFunction.Away,
        1 or 2 or 5 or 10 => HarmonicFunction.Away,
        _ => HarmonicFunction.None,
    };

    /// <summary>Home over the fifth degree just before the five chord only delays it.</summary>
    private static bool IsCadential(ChordSetting setting) =>
        FunctionalDegree.Above(setting.Chord.Bass, setting.Key) == 7 && setting.RootAfter == 7;
}
