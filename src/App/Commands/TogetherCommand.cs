using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using Harkbook.App.Choices;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Music.Analysis.Layers;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Instruments.Voicings;
using Harkbook.Music.Theory;
using Harkbook.Music.Theory.Symbols;

namespace Harkbook.App.Commands;

internal static class TogetherCommand
{
    public static Command Create()
    {
        var lower = new Argument<string>("lower") { Description = "A shape from the low string (x02210) or a chord, which takes its likeliest shape (Am)" };
        var upper = new Argument<string>("upper") { Description = "Another shape or chord, or a harmonica's breath: \"draw 4-6\", \"blow 4\"" };
        var tuning = Options.Tuning();
        var capo = Options.Capo();
        var upperCapo = new Option<int>("--upper-capo") { Description = "The capo's fret on the second guitar", HelpName = "FRET" };
        var harp = new Option<string?>("--harp") { Description = "The harmonica: G, \"low F\"", HelpName = "KEY" };
        var key = Options.Key();
        var json = Options.Json();
        var command = new Command("together", "Say what two parts make together: the chord's names, added degrees, shared notes, clashes, roughness")
        {
            lower, upper, tuning, capo, upperCapo, harp, key, json,
        };
        command.SetAction(parsed =>
        {
            var (open, context) = (Options.ReadTuning(parsed.GetValue(tuning)), Options.ReadKey(parsed.GetValue(key)));
            var first = ReadGuitar(Layer.Strummed, parsed.GetRequiredValue(lower), open, Options.ReadCapo(parsed.GetValue(capo)), context);
            var over = parsed.GetRequiredValue(upper);
            var second = ReadBreath(over, parsed.GetValue(harp)) ?? ReadGuitar(Layer.SecondGuitar, over, open, Capo(parsed.GetValue(upperCapo)), context).Notes;
            var pair = LayerPair.Of(first.Chord, first.Notes, second, context);
            Console.Out.Write(parsed.GetValue(json) ? LayerReport.Json(pair) : LayerReport.Text(pair));
            return 0;
        });
        return command;
    }

    private static Capo Capo(int fret) =>
        fret is >= 0 and <= 12 ? Music.Instruments.Strings.Capo.At(fret) : throw new UsageException($"--upper-capo {fret}: give a fret from 0 to 12.");

    private static (Chord? Chord, ImmutableArray<LayerNote> Notes) ReadGuitar(Layer layer, string text, Tuning tuning, Capo capo, Key? key)
    {
        if (Shape.TryParse(text, out var shape))
        {
            Options.RequireStrings(text, shape, tuning);
            return shape.SoundingStrings == 0 ? throw new UsageException($"Shape {text} mutes every string; give one that sounds.")
                : (null, LayerPair.OfShape(layer, shape, tuning, capo, key));
        }
        if (!ChordSymbol.TryRead(text, out var chord) || chord.IsNone)
            throw new UsageException($"'{text}' is no part to sound; write a shape (x02210), a chord (Am) or, for the upper one, a breath (\"draw 4-6\").");
        var voicing = VoicingSearch.Find(chord, tuning, capo).FirstOrDefault()
            ?? throw new UsageException($"No playable shape for {text} in {tuning}: its notes don't lie within a hand's reach, or there are too few strings. "
                + "Try a plainer chord, or another tuning.");
        return (chord, Respelled(LayerPair.OfShape(layer, voicing.Shape.WithoutFingers(), tuning, capo, key), chord));
    }

    private static ImmutableArray<LayerNote> Respelled(ImmutableArray<LayerNote> notes, Chord chord) =>
        [.. notes.Select(n => n with { Pitch = Pitch.FromMidi(n.Pitch.Midi, chord.Notes.Add(chord.Bass)
            .First(c => c.PitchClass == n.Pitch.Name.PitchClass)) })];

    /// <summary>Null where the text tells of no breath.</summary>
    private static ImmutableArray<LayerNote>? ReadBreath(string text, string? harp)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words is not ["blow" or "draw", ..])
            return null;
        if (harp is null)
            throw new UsageException($"'{text}': which harmonica? Give its key, as in --harp G.");
        var harmonica = HarpOptions.ReadHarmonica(harp.Split(' ', StringSplitOptions.RemoveEmptyEntries) is { Length: > 0 } key ? key : [""],
            HarpLayout.Richter);
        var holes = words.Length == 2 ? words[1].Split('-') : [];
        return holes.Length is 1 or 2 && Hole(holes[0]) is { } first && Hole(holes[^1]) is { } last && first <= last
            ? LayerPair.OfBreath(harmonica.Together(words[0] == "blow" ? Breath.Blow : Breath.Draw, first, last))
            : throw new UsageException($"'{text}' is no breath; write blow or draw and a hole from 1 to {harmonica.Holes}, or neighbours as in \"draw 4-6\".");

        int? Hole(string digits) => int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var hole) && hole >= 1
            && hole <= harmonica.Holes ? hole : null;
    }
}
