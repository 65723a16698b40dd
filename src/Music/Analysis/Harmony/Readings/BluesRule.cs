namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Blues practice: dominant sevenths on one and four are colours and lead nowhere (common practice).</summary>
internal static class BluesRule
{
    public static Reading? InABlues(ChordSetting setting) =>
        setting.IsBlues && IsBlue(setting) ? Blue(setting, "the song has sevenths on its one and four chords, as a blues does") : null;

    /// <summary>Outside a blues, a seventh on the four chord, or on a home chord that doesn't go to four.</summary>
    public static Reading? AnySeventh(ChordSetting setting) =>
        IsBlue(setting) && !(setting.Root == 5 && setting.Key.Mode.IsMinor) ? Blue(setting, "its seventh is a colour and leads nowhere") : null;

    private static bool IsBlue(ChordSetting setting) => setting is { Root: 0 or 5, IsDominantSeventh: true } && !setting.Notes.IsIn(setting.Scale);

    private static Reading Blue(ChordSetting setting, string reason)
    {
        var seventh = setting.Chord.Root + Theory.Interval.FromDegree(7, -1);
        var degree = setting.Root == 0 ? "flat seventh" : "minor third";
        return KeyRule.Plain(setting, OriginKind.BluesSeventh, reason, $"the seventh, {seventh}, is the {degree} of {setting.Key.Tonic}");
    }
}
