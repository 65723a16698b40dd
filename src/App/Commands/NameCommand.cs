using System.Collections.Immutable;
using System.CommandLine;
using Harkbook.Music.Instruments;
using Harkbook.Music.Theory;

namespace Harkbook.App.Commands;

internal static class NameCommand
{
    public static Command Create()
    {
        var what = new Argument<string[]>("what") { Description = "A shape from the low string (x02210, x.10.12.12.x.x) or notes from the bass up (C E G A, or C3 E3 G3)", Arity = ArgumentArity.OneOrMore };
        var tuning = Options.Tuning();
        var capo = Options.Capo();
        var key = Options.Key();
        var count = Options.Count("names", 4);
        var command = new Command("name", "Name a shape or some notes as a chord, the likeliest name first, with reasons") { what, tuning, capo, key, count };
        command.SetAction(parsed =>
        {
            var words = Options.ReadWords(parsed.GetRequiredValue(what), "harkbook name x02210, or harkbook name C E G");
            var wanted = Options.ReadCount(parsed.GetValue(count));
            var context = Options.ReadKey(parsed.GetValue(key));
            var open = Options.ReadTuning(parsed.GetValue(tuning));
            var names = Rank(words, open, Options.ReadCapo(parsed.GetValue(capo)), context);
            foreach (var name in names.Take(wanted))
                Console.Out.WriteLine($"{name.Symbol,-12} {name.Reason}");
            return 0;
        });
        return command;
    }

    private static ImmutableArray<ChordName> Rank(string[] words, Tuning tuning, Capo capo, Key? key)
    {
        if (words is [var text] && Shape.TryParse(text, out var shape))
        {
            return shape.Frets.Length == tuning.Count
                ? ChordNaming.Rank(shape.Pitches(tuning, capo, key?.Centre ?? 2), key)
                : throw new UsageException($"Shape {text} has {shape.Frets.Length} strings and the tuning {tuning} has {tuning.Count}; give the tuning with --tuning.");
        }
        if (words.All(w => Pitch.TryParse(w, out _)))
            return ChordNaming.Rank(words.Select(Pitch.Parse), key);
        if (words.FirstOrDefault(w => !PitchName.TryParse(w, out _)) is { } wrong)
            throw new UsageException($"'{wrong}' is neither a shape (x02210), a note (F#) nor a pitch (F#3).");
        var names = words.Select(PitchName.Parse).ToImmutableArray();
        return ChordNaming.Rank(names, names[0], key);
    }
}
