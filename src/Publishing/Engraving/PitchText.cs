using System.Globalization;
using System.Text.RegularExpressions;
using Harkbook.Music.Songs;
using Harkbook.Music.Theory;

namespace Harkbook.Publishing.Engraving;

/// <summary>Note names with real accidentals.</summary>
public static partial class PitchText
{
    /// <summary>"♯" for "#" and "♭" for a "b" that stands for a flat: alone, before a figure or before another.</summary>
    public static string Signed(string text)
    {
        var result = text.ToCharArray();
        for (var i = 0; i < result.Length; i++)
        {
            var flat = text[i] == 'b' && (i + 1 == text.Length || text[i + 1] is 'b' or (>= '0' and <= '9'));
            result[i] = text[i] == '#' ? '♯' : flat ? '♭' : text[i];
        }
        return new(result);
    }

    /// <summary>Signs the notes, degrees and numerals within words: "Bb and bVII over F#" is "B♭ and ♭VII over F♯".</summary>
    public static string InSentence(string text) => Flat().Replace(Sharp().Replace(text, "♯"), "♭");

    /// <summary>"F♯", "B♭".</summary>
    public static string Of(PitchName name) =>
        name.Letter + new string(name.Alteration < 0 ? '♭' : '♯', Math.Abs(name.Alteration));

    /// <summary>A harmonica's key as it is ordered: "low F♯".</summary>
    public static string Of(HarpReference harp) => $"{(harp.Octave < 0 ? "low " : harp.Octave > 0 ? "high " : "")}{Of(harp.Key)}";

    /// <summary>"F♯3"; C4 is middle C.</summary>
    public static string Of(Pitch pitch) => Of(pitch.Name) + pitch.Octave.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"(?<=\b[A-G]b*)b(?![ac-z])|(?<=\b[A-G]b*)b(?=(?:maj|min|m|dim|aug|add|sus|alt)+(?![a-z]))"
        + @"|(?<![A-Za-z])b+(?=[IViv0-9])|(?<=[A-G0-9m+)/-])b(?=\d)")]
    private static partial Regex Flat();

    [GeneratedRegex(@"(?<=\b[A-G]#*)#|#(?=[IViv0-9])")]
    private static partial Regex Sharp();
}
