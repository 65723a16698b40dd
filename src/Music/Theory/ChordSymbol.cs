using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory;

/// <summary>Chord symbols as guitarists write them: "F#m7b5", "Dsus4/A", "Cadd9", "N.C." for no chord.</summary>
public static partial class ChordSymbol
{
    private static readonly (string Suffix, ChordQuality Quality)[] Plain =
    [
        ("", ChordQuality.Major), ("m", ChordQuality.Minor), ("dim", ChordQuality.Diminished), ("aug", ChordQuality.Augmented),
        ("sus2", ChordQuality.SuspendedSecond), ("sus4", ChordQuality.SuspendedFourth), ("5", ChordQuality.Power),
        ("7", ChordQuality.Dominant7), ("maj7", ChordQuality.Major7), ("m7", ChordQuality.Minor7), ("m(maj7)", ChordQuality.MinorMajor7),
        ("dim7", ChordQuality.Diminished7), ("m7b5", ChordQuality.HalfDiminished7), ("6", ChordQuality.Major6), ("m6", ChordQuality.Minor6),
        ("7sus4", ChordQuality.Dominant7Suspended4), ("add9", ChordQuality.AddedNinth), ("9", ChordQuality.Dominant9),
    ];

    public static string Write(Chord chord)
    {
        if (chord.IsNone)
            return "N.C.";
        var suffix = Plain.First(p => p.Quality == chord.Quality).Suffix;
        return chord.Root + suffix + (chord.Bass == chord.Root ? "" : "/" + chord.Bass);
    }

    public static bool TryRead([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Chord? chord)
    {
        chord = text == "N.C." ? Chord.None : null;
        if (string.IsNullOrEmpty(text) || chord is not null)
            return chord is not null;
        var slash = text.Split('/');
        var accidentals = slash[0].Skip(1).TakeWhile(c => c is '#' or 'b').Count();
        if (slash.Length > 2 || !PitchName.TryParse(slash[0][..(1 + accidentals)], out var root))
            return false;
        var bass = root;
        if (slash.Length == 2 && !PitchName.TryParse(slash[1], out bass))
            return false;
        var quality = Plain.FirstOrDefault(p => p.Suffix == slash[0][(1 + accidentals)..]).Quality;
        chord = quality is null ? null : Chord.Of(root, quality, bass);
        return chord is not null;
    }

    public static Chord Read(string text) =>
        TryRead(text, out var chord)
            ? chord
            : throw new FormatException($"'{text}' is not a chord symbol; write a root and a kind, as in F#m7, Dsus4 or G/B.");
}
