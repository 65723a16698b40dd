using System.Text.RegularExpressions;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.App.Commands;

/// <summary>
/// A guitar's tuning as a player says it: pitches (D2 A2 D3 G3 A3 D4), letters (DADGAD) or a name (open G). Letters alone
/// are a tuning of the catalogue that has them, else each is the nearest such note to standard tuning's string, the lower of two.
/// </summary>
internal static partial class TuningWords
{
    public static Tuning? Read(string text) =>
        Tuning.TryParse(text, out var tuning) ? tuning : TuningCatalogue.Find(text)?.Tuning ?? OfLetters(text.Replace(" ", ""));

    private static Tuning? OfLetters(string text)
    {
        var letters = Letters().Match(text).Groups["note"].Captures.Select(c => PitchName.Parse(c.Value)).ToArray();
        if (letters.Length != Tuning.Standard.Count)
            return null;
        var known = TuningCatalogue.All.FirstOrDefault(t => t.Instrument == TuningCatalogue.Guitar
            && t.Tuning.Strings.Select(s => s.Name.PitchClass).SequenceEqual(letters.Select(l => l.PitchClass)));
        return known?.Tuning ?? Tuning.Of(letters.Zip(Tuning.Standard.Strings, Nearest));
    }

    private static Pitch Nearest(PitchName name, Pitch usual) =>
        Enumerable.Range(usual.Octave - 1, 3).Select(octave => Pitch.Parse($"{name}{octave}"))
            .OrderBy(p => Math.Abs(p.Midi - usual.Midi)).ThenBy(p => p.Midi).First();

    [GeneratedRegex("^(?<note>[A-G][#b]?)+$")]
    private static partial Regex Letters();
}
