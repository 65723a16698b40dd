using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Augmented sixths: told by their spelling, or by how a dominant seventh on the flat sixth degree opens out to the five chord.</summary>
internal static class AugmentedSixthRule
{
    private static readonly AugmentedSixth[] All = Enum.GetValues<AugmentedSixth>();

    public static Reading? Spelled(ChordSetting setting) =>
        setting.Root == 8 && setting.Chord.Quality.Intervals.Contains(Interval.ParseDegree("#6"))
            ? Named(setting, "its sixth is augmented and opens out to the fifth degree") : null;

    public static Reading? Heard(ChordSetting setting) =>
        setting is { Root: 8, IsDominantSeventh: true, GoesToFive: true }
            ? Named(setting, $"it sounds like a seventh chord, but its {setting.Key.Note(4, 1)} rises and its {setting.Key.Note(6, -1)} falls to the five "
                + "chord's root")
            : null;

    private static Reading? Named(ChordSetting setting, string reason)
    {
        foreach (var sixth in All.Where(s => SoundsAs(setting, s)))
        {
            var numeral = RomanNumeral.Of(sixth);
            var inBass = setting.Chord.Bass == setting.Chord.Root;
            return new(inBass ? numeral : RomanNumeral.Of(setting.Chord, setting.Key), new(OriginKind.AugmentedSixth),
                [$"an augmented sixth, the {sixth} one: {reason}"]);
        }
        return null;
    }

    private static bool SoundsAs(ChordSetting setting, AugmentedSixth sixth) =>
        setting.Chord.Quality.PitchClasses.AsSpan().SequenceEqual(FunctionalDegree.QualityOf(sixth).PitchClasses.AsSpan());
}
