using System.Diagnostics.CodeAnalysis;

namespace Harkbook.Music.Theory;

/// <summary>
/// A spelled pitch class: a letter with its sharps or flats, kept as a place on the line of fifths
/// (… Bb −2, F −1, C 0, G 1, D 2 …), so that spelling survives transposition.
/// </summary>
public readonly record struct PitchName
{
    private const string LettersByFifths = "FCGDAEB";

    private PitchName(int fifths) => Fifths = fifths;

    /// <summary>Fifths above C; negative below.</summary>
    public int Fifths { get; }

    /// <summary>A to G.</summary>
    public char Letter => LettersByFifths[Floor.Mod(Fifths + 1, 7)];

    /// <summary>Sharps (positive) or flats (negative).</summary>
    public int Alteration => Floor.Div(Fifths + 1, 7);

    /// <summary>0 (C) to 11 (B), whatever the spelling.</summary>
    public int PitchClass => Floor.Mod(Fifths * 7, 12);

    public static PitchName FromFifths(int fifths) =>
        Math.Abs(fifths) <= 40
            ? new(fifths)
            : throw new ArgumentOutOfRangeException(nameof(fifths), fifths, "Names run from 40 fifths below C to 40 above; more means transposing in a loop.");

    public static PitchName FromLetter(char letter, int alteration)
    {
        var index = LettersByFifths.IndexOf(letter);
        return index >= 0
            ? FromFifths(index - 1 + 7 * alteration)
            : throw new ArgumentOutOfRangeException(nameof(letter), letter, "A letter from A to G, in capitals.");
    }

    /// <summary>The name with the fewest accidentals for a pitch class (0–11), sharps or flats as the key asks.</summary>
    /// <param name="centre">The place on the line of fifths to stay near: 2 (D) gives Eb, Bb, F#, C#, G#.</param>
    public static PitchName FromPitchClass(int pitchClass, int centre = 2)
    {
        var fifths = Floor.Mod(pitchClass * 7, 12);
        return FromFifths(centre - 5 + Floor.Mod(fifths - (centre - 5), 12));
    }

    public static PitchName operator +(PitchName name, Interval interval) => FromFifths(name.Fifths + interval.Fifths);

    public static PitchName operator -(PitchName name, Interval interval) => FromFifths(name.Fifths - interval.Fifths);

    /// <summary>Reads "C", "F#", "Bb", "C##", "Ebb"; letters in capitals.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, out PitchName name)
    {
        name = default;
        if (string.IsNullOrEmpty(text) || LettersByFifths.IndexOf(text[0]) < 0 || text.Length > 4)
            return false;
        var accidentals = text.AsSpan(1);
        if (accidentals.ContainsAnyExcept('#', 'b') || (accidentals.Contains('#') && accidentals.Contains('b')))
            return false;
        name = FromLetter(text[0], accidentals.Contains('b') ? -accidentals.Length : accidentals.Length);
        return true;
    }

    public static PitchName Parse(string text) =>
        TryParse(text, out var name)
            ? name
            : throw new FormatException($"'{text}' is not a note name; write a letter A to G with # or b, as in F# or Bb.");

    public override string ToString() => Letter + new string(Alteration < 0 ? 'b' : '#', Math.Abs(Alteration));
}
