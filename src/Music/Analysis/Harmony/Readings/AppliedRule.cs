using Harkbook.Music.Analysis.Harmony.Numerals;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Chords that treat another chord of the key as home for a moment.</summary>
internal static class AppliedRule
{
    /// <summary>
    /// A dominant seventh is applied to the chord a fifth below whether it gets there or not; a major triad only where it does. So are sevenths on
    /// home and on four, which are as often a colour; alone, without neighbours, C7 in C is the five chord of F, as textbooks have it.
    /// </summary>
    public static Reading? FiveOf(ChordSetting setting)
    {
        if (!setting.HasMajorThird || setting.Root == 7)
            return null;
        var home = (setting.Root + 5) % 12;
        var target = setting.TargetAt(home) ?? (setting.IsDominantSeventh ? setting.NextAsTarget(home) : null);
        var arrives = setting.GoesTo(home);
        var leads = setting.IsDominantSeventh && setting.Root switch { 0 => setting.After is null && setting.Before is null, 5 => false, _ => true };
        return target is null || !(arrives || leads) ? null : Applied(setting, target, arrives
            ? $"it is the five chord of {Goal(setting, target)}, which follows"
            : $"it is the five chord of {Goal(setting, target)}, which does not follow");
    }

    /// <summary>The two chord of a five chord that is itself applied: Gm7 before C7 in C.</summary>
    public static Reading? TwoOf(ChordSetting setting)
    {
        if (setting.After is not { } five || !ChordTraits.IsDominantSeventh(five.Quality) || !setting.HasMinorThird
            || ChordTraits.IsDiminishedSeventh(setting.Chord.Quality))
            return null;
        var root = setting.RootAfter!.Value;
        var home = (root + 5) % 12;
        return root == (setting.Root + 5) % 12 && home != 0 && setting.TargetAt(home) is { } target
            ? Applied(setting, target, $"it is the two chord of {Goal(setting, target)}, whose five chord follows")
            : null;
    }

    /// <summary>A dominant seventh on the flat second degree that falls to home.</summary>
    public static Reading? TritoneSubstitute(ChordSetting setting) =>
        setting is { Root: 1, IsDominantSeventh: true, RootAfter: 0 }
            ? KeyRule.Plain(setting, OriginKind.TritoneSubstitute,
                "it stands for the five chord, with which it shares the third and the seventh, and falls a half step to home")
            : null;

    public static Reading Applied(ChordSetting setting, RomanNumeral target, string reason) =>
        new(RomanNumeral.Applied(setting.Chord, setting.Key, target), new(OriginKind.Applied), [reason, KeyRule.Foreign(setting)]);

    public static string Goal(ChordSetting setting, RomanNumeral target) => target.In(setting.Key).ToString();
}
