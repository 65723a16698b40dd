using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory.Symbols;

/// <summary>
/// Chord symbols as guitarists write them: "F#m7b5", "Dsus4/A", "Cadd9", "E7#9", "C(no3)", "N.C." for no chord.
/// Many spellings are read (m, min, −; maj7, M7, Δ; ø, °, +; sus, add, no or omit; ♯ and ♭), one is written for each chord.
/// Any chord can be written, and what is written reads back as the same chord.
/// </summary>
/// <remarks>
/// Where books differ, these rules hold. 11 and maj11 leave the major third out, since the eleventh clashes with it
/// (with the third: 9add11); m11 keeps its minor third. 13 and maj13 leave the eleventh out; m13 keeps it.
/// sus is sus4; C4 is Csus4; C2 is Cadd9; sus2 holds the second itself. An altered degree replaces the plain one
/// of the same number (C13b9 has no plain 9) and else is added; "add" never replaces. 7#11 holds no 9.
/// A minus straight after the root is minor (C-9 is Cm9); behind a number it is a flat (C7-9 is C7b9). C7/9 is C9.
/// 7alt holds b9, #9, #11 and b13 and no plain fifth. 6/9 holds no seventh. A sign straight after the root belongs to
/// the root: "Cb5" is Cb with a fifth, "C(b5)" is C with a flat fifth.
/// </remarks>
public static class ChordSymbol
{
    /// <summary>The chord's one writing.</summary>
    public static string Write(Chord chord) => ChordSymbolWriter.Write(chord);

    /// <summary>What stands after the root for a quality: "" for major, "m7", "7#9"; "N.C." for no chord.</summary>
    public static string Suffix(ChordQuality quality) => ChordSymbolWriter.Suffix(quality);

    public static bool TryRead([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Chord? chord) =>
        TryRead(text, out chord, out _);

    /// <summary>Reads a symbol; where it makes no sense, says where and what was expected.</summary>
    public static bool TryRead([NotNullWhen(true)] string? text, [NotNullWhen(true)] out Chord? chord, out ReadProblem problem)
    {
        var reader = new ChordSymbolReader(text ?? "");
        chord = reader.Read();
        problem = chord is null ? reader.Problem : default;
        return chord is not null;
    }

    /// <summary>
    /// A symbol as it must be written, where only the writing was another: "am" and "A minor" are Am, and H is what German calls B. Null where no
    /// chord comes of it.
    /// </summary>
    public static string? Respelled(string text)
    {
        var plain = text.Replace(" ", "", StringComparison.Ordinal).Replace("minor", "m", StringComparison.OrdinalIgnoreCase)
            .Replace("major", "", StringComparison.OrdinalIgnoreCase);
        if (plain.Length == 0)
            return null;
        var root = char.ToUpperInvariant(plain[0]);
        var respelled = (root == 'H' ? 'B' : root) + plain[1..];
        return respelled != text && TryRead(respelled, out _) ? respelled : null;
    }

    public static Chord Read(string text) =>
        TryRead(text, out var chord, out var problem)
            ? chord
            : throw new FormatException(problem.Describe(text, "a chord symbol"));
}
