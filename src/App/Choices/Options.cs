using System.CommandLine;
using Harkbook.App.Messages;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.App.Choices;

/// <summary>Options that several commands take, and how their text is read.</summary>
internal static class Options
{
    public static Option<string?> Tuning() =>
        new("--tuning")
        {
            Description = "Open strings from low to high, as DADGAD or \"D2 A2 D3 G3 A3 D4\", or a name, as \"open G\", ukulele or \"banjo double C\"; without "
                + "it, a guitar's standard",
            HelpName = "STRINGS",
        };

    public static Option<int> Capo() => new("--capo") { Description = "The fret that the capo is at", HelpName = "FRET" };

    public static Option<string?> Key() => new("--key") { Description = "The key to name in: \"D major\"", HelpName = "KEY" };

    /// <summary>How many results to list.</summary>
    public static Option<int> Count(string ofWhat, int usual) =>
        new("--count") { Description = $"How many {ofWhat} to list", HelpName = "NUMBER", DefaultValueFactory = _ => usual };

    public static Option<bool> Json() => new("--json") { Description = "Print the result as JSON" };

    /// <summary>Refuses a shape of another number of strings.</summary>
    public static void RequireStrings(string text, Shape shape, Tuning tuning)
    {
        if (shape.Frets.Length != tuning.Count)
            throw new UsageException(
                $"Shape {text} has {shape.Frets.Length} strings and the tuning {tuning} has {tuning.Count}; give the tuning with --tuning.");
    }

    public static int ReadCount(int count) => count >= 1 ? count : throw new UsageException($"--count {count}: give 1 or more.");

    /// <summary>Words given one by one or together in quotes.</summary>
    public static string[] ReadWords(string[] given, string example)
    {
        var words = given.SelectMany(w => w.Split(' ', StringSplitOptions.RemoveEmptyEntries)).ToArray();
        return words.Length > 0 ? words : throw new UsageException($"nothing was given; write, for instance, {example}.");
    }

    public static Tuning ReadTuning(string? text) => ReadInstrument(text).Tuning;

    public static TunedInstrument ReadInstrument(string? text) =>
        TuningWords.Read(text ?? "standard")
            ?? throw new UsageException($"'{text}' is not a tuning; write the open strings from low to high, as in DADGAD or \"D2 A2 D3 F#3 A3 D4\", or one of "
                + $"the names: {string.Join(", ", TuningWords.Names)}. 'harkbook tunings' lists their strings.");

    public static Capo ReadCapo(int fret) =>
        fret is >= 0 and <= 12 ? Music.Instruments.Strings.Capo.At(fret) : throw new UsageException($"--capo {fret}: give a fret from 0 to 12.");

    public static Key? ReadKey(string? text) =>
        text is null ? null
        : Music.Theory.Key.TryParse(text, out var key) ? key
        : throw new UsageException($"'{text}' is not a key; write a tonic and a mode, as in \"D major\" or \"A dorian\".");

    public static Chord ReadChord(string text) =>
        ChordSymbol.TryRead(text, out var chord) && !chord.IsNone
            ? chord
            : throw new UsageException($"'{text}' is not a chord symbol; write a root and a kind, as in F#m7, Dsus4 or G/B."
                + (ChordSymbol.Respelled(text) is { } meant ? $" Did you mean '{meant}'?" : ""));
}
