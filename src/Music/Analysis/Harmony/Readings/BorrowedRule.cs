using System.Collections.Immutable;
using Harkbook.Music.Analysis.Harmony.Numerals;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Analysis.Harmony.Readings;

/// <summary>Chords from another mode on the same home note.</summary>
internal static class BorrowedRule
{
    private static readonly ImmutableArray<Mode> FromMajor = [Mode.Minor, Mode.Mixolydian, Mode.Dorian, Mode.Phrygian, Mode.Lydian];
    private static readonly ImmutableArray<Mode> FromMinor = [Mode.Major, Mode.Dorian, Mode.Minor, Mode.Phrygian, Mode.Mixolydian];

    public static Reading? Neapolitan(ChordSetting setting) =>
        setting.Root == 1 && setting.HasMajorThird && setting.Notes.IsIn(Tones.Of(Mode.Phrygian))
            ? new(RomanNumeral.Of(setting.Chord, setting.Key), new(OriginKind.Neapolitan) { From = [Mode.Phrygian] },
                [$"the major chord on the flat second degree, which textbooks call the Neapolitan; {new Key(setting.Key.Tonic, Mode.Phrygian)} holds it"])
            : null;

    /// <summary>The whole chord first; where no mode holds all of it, its triad.</summary>
    public static Reading? FromMode(ChordSetting setting) => From(setting, setting.Notes) ?? From(setting, setting.Triad);

    /// <summary>A major or minor triad a third from home that no other rule knows: the keys a third away, major for minor or minor for major.</summary>
    public static Reading? Mediant(ChordSetting setting) =>
        setting.Root is 3 or 4 or 8 or 9 && (setting.HasMajorThird || setting.HasMinorThird) && !ChordTraits.IsDiminished(setting.Chord.Quality)
            ? KeyRule.Plain(setting, OriginKind.ChromaticMediant, $"its root lies a third from home, and {KeyRule.Foreign(setting)}")
            : null;

    private static Reading? From(ChordSetting setting, Tones notes)
    {
        var isMinor = setting.Key.Mode.IsMinor;
        var modes = (isMinor ? FromMinor : FromMajor).Where(m => m != setting.Key.Mode && Holds(m, notes)).ToImmutableArray();
        if (modes.IsEmpty || (modes is [{ Name: "lydian" }] && setting.HasMajorThird && setting.Root == 4))
            return null;
        var parallel = new Key(setting.Key.Tonic, modes[0]);
        var others = modes.Skip(1).Select(m => new Key(setting.Key.Tonic, m).ToString()).ToList();
        var isPicardy = isMinor && setting is { Root: 0, After: null } && setting.HasMajorThird && modes[0] == Mode.Major;
        ImmutableArray<string> reasons =
        [
            $"{KeyRule.Foreign(setting)} but in {parallel}",
            .. isPicardy ? ["a minor song that ends on a major home chord: textbooks call it a Picardy third"] : Array.Empty<string>(),
            .. others.Count > 0 ? [$"{string.Join(" and ", others)} {(others.Count == 1 ? "has" : "have")} it too"] : Array.Empty<string>(),
        ];
        return new(RomanNumeral.Of(setting.Chord, setting.Key), new(OriginKind.Borrowed) { From = modes }, reasons);
    }

    /// <summary>Minor holds its chords with the leading note too.</summary>
    private static bool Holds(Mode mode, Tones notes)
    {
        var scale = Tones.Of(mode);
        return notes.IsIn(scale) || (mode == Mode.Minor && notes.IsIn(scale.Without(10).With(11)));
    }
}
