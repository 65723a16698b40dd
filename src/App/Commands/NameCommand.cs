using System.Collections.Immutable;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Messages;
using Harkbook.Music.Analysis.Harmony;
using Harkbook.Music.Instruments.Shapes;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Theory;

namespace Harkbook.App.Commands;

internal static class NameCommand
{
    public static Command Create()
    {
        var what = new Argument<string[]>("what")
        {
            Description = "A shape from the low string (x02210, x.10.12.12.x.x) or notes from the bass up (C E G A, or C3 E3 G3)",
            Arity = ArgumentArity.OneOrMore,
        };
        var tuning = Options.Tuning();
        var capo = Options.Capo();
        var key = Options.Key();
        var before = new Option<string?>("--before") { Description = "The chord that sounds before it: \"G7\"", HelpName = "CHORD" };
        var after = new Option<string?>("--after") { Description = "The chord that sounds after it: \"Dm\"", HelpName = "CHORD" };
        var count = Options.Count("names", 4);
        var command = new Command("name", "Name a shape or some notes as a chord, the likeliest name first, with reasons")
        {
            what, tuning, capo, key, before, after, count,
        };
        command.SetAction(parsed =>
        {
            var words = Options.ReadWords(parsed.GetRequiredValue(what), "harkbook name x02210, or harkbook name C E G");
            var wanted = Options.ReadCount(parsed.GetValue(count));
            var context = Options.ReadKey(parsed.GetValue(key));
            var open = Options.ReadTuning(parsed.GetValue(tuning));
            var names = Rank(words, open, Options.ReadCapo(parsed.GetValue(capo)), context, Neighbour(parsed.GetValue(before)),
                Neighbour(parsed.GetValue(after)));
            foreach (var name in NamesInContext.Said(names, context).Take(wanted))
                Console.Out.WriteLine($"{name.Name.Symbol,-12} {name.Reason}");
            return 0;
        });
        return command;
    }

    private static Chord? Neighbour(string? text) => text is null ? null : Options.ReadChord(text);

    private static ImmutableArray<NameInContext> Rank(string[] words, Tuning tuning, Capo capo, Key? key, Chord? before, Chord? after)
    {
        if (words is [var text] && Shape.TryParse(text, out var shape))
        {
            Options.RequireStrings(text, shape, tuning);
            var pitches = shape.Pitches(tuning, capo, key?.Centre ?? 2);
            return tuning.IsReentrant ? NamesInContext.RankWithoutBass(pitches, key, before, after) : NamesInContext.Rank(pitches, key, before, after);
        }
        if (words.All(w => Pitch.TryParse(w, out _)))
            return NamesInContext.Rank(words.Select(Pitch.Parse), key, before, after);
        if (words.FirstOrDefault(w => !PitchName.TryParse(w, out _)) is { } wrong)
            throw new UsageException($"'{wrong}' is neither a shape (x02210), a note (F#) nor a pitch (F#3).");
        var names = words.Select(PitchName.Parse).ToImmutableArray();
        return NamesInContext.Rank(names, names[0], key, before, after);
    }
}
