using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.Music.Instruments.Hands;

/// <summary>
/// A tuning as a player says it: pitches (D2 A2 D3 G3 A3 D4), letters (DADGAD), a name (open G), an instrument (ukulele) or both
/// (ukulele low G). Letters alone are a guitar tuning of the catalogue that has them, else each is the nearest such note to
/// standard tuning's string, the lower of two.
/// </summary>
public static partial class TuningWords
{
    private static readonly FrettedInstrument Guitar = FrettedInstrument.Find(TuningCatalogue.Guitar)!;

    /// <summary>Names that can be said without an instrument: the guitar's tunings, then every other instrument.</summary>
    public static ImmutableArray<string> Names { get; } =
    [
        .. TuningCatalogue.All.Where(t => t.Instrument == TuningCatalogue.Guitar).Select(t => t.Name),
        .. TuningCatalogue.Instruments.Where(i => i != TuningCatalogue.Guitar),
    ];

    public static TunedInstrument? Read(string text) =>
        Tuning.TryParse(text, out var tuning) ? new(tuning, InstrumentFor(tuning))
        : Named(text.Trim()) is { } named ? new(named.Tuning, FrettedInstrument.Find(named.Instrument) ?? Guitar)
        : OfLetters(text.Replace(" ", "")) is { } letters ? new(letters, Guitar)
        : null;

    /// <summary>The instrument that a tuning is known on; the guitar for one that nobody named.</summary>
    private static FrettedInstrument InstrumentFor(Tuning tuning) =>
        TuningCatalogue.EntriesFor(tuning) is [var first, ..] ? FrettedInstrument.Find(first.Instrument) ?? Guitar : Guitar;

    private static NamedTuning? Named(string text) =>
        TuningCatalogue.Find(text) ?? OnInstrument(text) ?? TuningCatalogue.Instruments.Select(i => TuningCatalogue.Find(text, i))
            .FirstOrDefault(t => t is not null);

    private static NamedTuning? OnInstrument(string text)
    {
        foreach (var (instrument, name) in FrettedInstrument.All.SelectMany(i => i.Names.Select(n => (i.Name, n))).OrderByDescending(p => p.n.Length))
        {
            if (text.Equals(name, StringComparison.OrdinalIgnoreCase))
                return TuningCatalogue.All.FirstOrDefault(t => t.Instrument == instrument);
            var rest = text.StartsWith(name + " ", StringComparison.OrdinalIgnoreCase) ? text[name.Length..]
                : text.EndsWith(" " + name, StringComparison.OrdinalIgnoreCase) ? text[..^name.Length]
                : "";
            if (TuningCatalogue.Find(rest, instrument) is { } found)
                return found;
        }
        return null;
    }

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
