using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>
/// Diminished chords. A diminished seventh has four equal roots: where it goes says which of them leads there; a note of the key's leading
/// degree comes next; a shared root with the next chord makes it a passing chord.
/// </summary>
internal static class DiminishedRule
{
    public static Reading? Seventh(ChordSetting setting)
    {
        if (setting.Chord.Quality != ChordQuality.Diminished7)
            return null;
        if (setting.Notes.Has(11) && (setting.RootAfter is null or 0 || !Leads(setting)))
            return OfHome(setting);
        if (Leads(setting) && Target(setting, setting.RootAfter!.Value) is { } next)
            return Leading(setting, next, $"it leads up a half step to {setting.After!.Root}, which follows");
        if (setting.RootAfter is { } root && setting.Notes.Has(root))
            return KeyRule.Plain(setting, OriginKind.PassingDiminished, $"it shares {setting.After!.Root} with the chord that follows",
                KeyRule.Foreign(setting));
        return setting.Notes.Semitones.OrderBy(s => s == setting.Root ? 0 : 1).Select(s => Target(setting, (s + 1) % 12))
            .FirstOrDefault(t => t is not null) is { } target
            ? Leading(setting, target, $"it leads up a half step to {AppliedRule.Goal(setting, target)}, which does not follow")
            : null;
    }

    /// <summary>A diminished or half-diminished chord outside the key a half step below one of its chords, unless another chord follows.</summary>
    public static Reading? Triad(ChordSetting setting) =>
        ChordTraits.IsDiminished(setting.Chord.Quality) && !setting.Notes.IsIn(setting.ScaleWithLeadingNote) && !(IsMelodic(setting) && setting.After is null)
        && Target(setting, (setting.Root + 1) % 12) is { } target && target.Root != Interval.Unison
        && (setting.After is null || setting.GoesTo((setting.Root + 1) % 12))
            ? AppliedRule.Applied(setting, target, $"it leads up a half step to {AppliedRule.Goal(setting, target)}")
            : null;

    /// <summary>Minor's rising scale holds a half-diminished chord on its sixth degree.</summary>
    private static bool IsMelodic(ChordSetting setting) => setting.Key.Mode.IsMinor && setting.Notes.IsIn(Tones.Of(Mode.Dorian));

    private static bool Leads(ChordSetting setting) => setting.RootAfter is { } after && setting.Notes.Has((after + 11) % 12);

    private static RomanNumeral? Target(ChordSetting setting, int root) => setting.TargetAt(root);

    private static Reading OfHome(ChordSetting setting)
    {
        var chord = OnRoot(setting, 11);
        var isMinor = setting.Key.Mode.IsMinor;
        return new(RomanNumeral.Of(chord, setting.Key),
            isMinor ? new(OriginKind.LeadingNote) : new(OriginKind.Borrowed) { From = [Mode.Minor] },
            [isMinor ? "it stands on the raised seventh degree and leads home"
                : $"its {setting.Key.Note(6, -1)} comes from {new Key(setting.Key.Tonic, Mode.Minor)}; it stands on the seventh degree and leads home"]);
    }

    private static Reading Leading(ChordSetting setting, RomanNumeral target, string reason) =>
        target.Root == Interval.Unison
            ? OfHome(setting)
            : AppliedRule.Applied(setting with { Chord = OnRoot(setting, Floor.Mod(target.Root.Semitones - 1, 12)) }, target, reason);

    /// <summary>The same notes on another of the four roots, the bass kept.</summary>
    private static Chord OnRoot(ChordSetting setting, int semitones)
    {
        var root = setting.Chord.Notes.Append(setting.Chord.Root).First(n => FunctionalDegree.Above(n, setting.Key) == semitones);
        var bass = setting.Chord.Bass;
        return Chord.Of(root, setting.Chord.Quality, bass.PitchClass == root.PitchClass ? root : bass);
    }
}
