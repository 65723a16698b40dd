using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Numerals;

/// <summary>Figured bass for the inversions of triads and of sevenths that a numeral's case and mark tell apart.</summary>
internal static class Figures
{
    private static readonly ChordQuality[] Triads = [ChordQuality.Major, ChordQuality.Minor, ChordQuality.Diminished, ChordQuality.Augmented];

    private static readonly ChordQuality[] Sevenths =
        [ChordQuality.Dominant7, ChordQuality.Minor7, ChordQuality.Diminished7, ChordQuality.HalfDiminished7];

    /// <summary>The figures for a degree of the chord in the bass; null where the chord has none.</summary>
    public static string? Of(ChordQuality quality, int bassDegree) => (Triads.Contains(quality), Sevenths.Contains(quality), bassDegree) switch
    {
        (true, _, 3) => "6",
        (true, _, 5) => "6/4",
        (_, true, 3) => "6/5",
        (_, true, 5) => "4/3",
        (_, true, 7) => "4/2",
        _ => null,
    };

    /// <summary>What stands between numeral and figures.</summary>
    public static string Mark(ChordQuality quality) =>
        quality == ChordQuality.Diminished || quality == ChordQuality.Diminished7 ? "o"
        : quality == ChordQuality.HalfDiminished7 ? "ø"
        : quality == ChordQuality.Augmented ? "+"
        : "";

    /// <summary>Takes figures from a text: the degree in the bass and whether they are those of a seventh chord; null where none stand.</summary>
    public static (int BassDegree, bool IsSeventh)? Take(TextCursor text) =>
        text.TakeAny("6/5", "65") ? (3, true)
        : text.TakeAny("6/4", "64") ? (5, false)
        : text.TakeAny("4/3", "43") ? (5, true)
        : text.TakeAny("4/2", "42") ? (7, true)
        : text.Take("6") ? (3, false)
        : text.Next == '2' && text.Take("2") ? (7, true)
        : null;

    public static ChordQuality QualityOf(string mark, bool isSeventh, bool isMinor) => (mark, isSeventh) switch
    {
        ("o", true) => ChordQuality.Diminished7,
        ("o", false) => ChordQuality.Diminished,
        ("ø", _) => ChordQuality.HalfDiminished7,
        ("+", false) => ChordQuality.Augmented,
        (_, true) => isMinor ? ChordQuality.Minor7 : ChordQuality.Dominant7,
        _ => isMinor ? ChordQuality.Minor : ChordQuality.Major,
    };
}
