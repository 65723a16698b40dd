using System.Text.RegularExpressions;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.Music.Analysis;

/// <summary>Chords, notes and degrees as players say them: "D eleven", "F sharp minor seven", "G over D".</summary>
public static partial class ChordSpeech
{
    public static string Of(Chord chord)
    {
        if (chord.IsNone)
            return "no chord";
        var root = chord.Root.ToString();
        var kind = ChordSymbol.Write(Chord.Of(chord.Root, chord.Quality))[root.Length..];
        var name = $"{Of(chord.Root)} {Words(kind)}".Trim();
        return chord.Bass == chord.Root ? name : $"{name} over {Of(chord.Bass)}";
    }

    /// <summary>"F sharp", "B flat".</summary>
    public static string Of(PitchName note) =>
        $"{note.Letter}{string.Concat(Enumerable.Repeat(note.Alteration < 0 ? " flat" : " sharp", Math.Abs(note.Alteration)))}";

    /// <summary>A degree above a root: "flat seventh", "ninth", "sharp eleventh"; "root" for the unison.</summary>
    public static string Degree(Interval interval)
    {
        var (degree, alteration) = interval.Degree;
        var sign = string.Concat(Enumerable.Repeat(alteration < 0 ? "flat " : "sharp ", Math.Abs(alteration)));
        return degree is 1 or 8 && alteration == 0 ? "root" : sign + NumberWords.Ordinal(degree);
    }

    private static string Words(string kind) => string.Join(' ', Tokens().Matches(kind).Select(m => Word(m.Value)).Where(w => w.Length > 0));

    private static string Word(string token) => token switch
    {
        "m" => "minor",
        "maj" => "major",
        "dim" => "diminished",
        "aug" => "augmented",
        "alt" => "altered",
        "b" => "flat",
        "#" => "sharp",
        "sus" or "add" or "no" => token,
        _ => int.TryParse(token, out var number) ? number == 13 ? "thirteen" : NumberWords.Of(number) : "",
    };

    [GeneratedRegex("maj|m|dim|aug|alt|sus|add|no|b|#|[0-9]+|.")]
    private static partial Regex Tokens();
}
