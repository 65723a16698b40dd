using Harkbook.Music.Analysis.Harmony.Numerals;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Chords of the key itself.</summary>
internal static class KeyRule
{
    public static Reading? Native(ChordSetting setting)
    {
        if (setting.Notes.IsIn(setting.Scale))
            return Plain(setting, OriginKind.Native, $"every note is in {setting.Key}");
        return setting.Notes.IsIn(setting.ScaleWithLeadingNote) && LeadsHome(setting)
            ? Plain(setting, OriginKind.LeadingNote, $"the seventh degree of {setting.Key} is raised to lead home, which is native to minor")
            : null;
    }

    /// <summary>The triad is the key's, and the five chord of minor counts as such; what stands on it isn't.</summary>
    public static Reading? Coloured(ChordSetting setting)
    {
        var isFive = setting is { Root: 7, HasMajorThird: true };
        return setting.Triad.IsIn(setting.Scale) || isFive || (setting.Triad.IsIn(setting.ScaleWithLeadingNote) && LeadsHome(setting))
            ? Plain(setting, OriginKind.Coloured, $"the triad belongs to {setting.Key}; {Foreign(setting)}")
            : null;
    }

    /// <summary>"F# is not in C major", with the notes as the key names them.</summary>
    public static string Foreign(ChordSetting setting)
    {
        var notes = setting.Chord.Notes.Where(n => !setting.Scale.Has(FunctionalDegree.Above(n, setting.Key))).Select(n => n.ToString()).ToList();
        return notes.Count == 1 ? $"{notes[0]} is not in {setting.Key}" : $"{string.Join(", ", notes.SkipLast(1))} and {notes[^1]} are not in {setting.Key}";
    }

    private static bool LeadsHome(ChordSetting setting) => setting.Root is 7 or 11 || (setting.Root == 3 && setting.Notes.Has(11));

    public static Reading Plain(ChordSetting setting, OriginKind kind, params string[] reasons) =>
        new(RomanNumeral.Of(setting.Chord, setting.Key), new(kind), [.. reasons]);
}
