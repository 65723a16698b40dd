using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Reports;
using Harkbook.Music.Instruments.Harmonicas;

namespace Harkbook.App.Commands;

internal static class HarpsCommand
{
    public static Command Create()
    {
        var tune = new Argument<string[]>("tune")
        {
            Description = "Sounding pitches in order, D5 E5 F#5 (C4 is middle C), or a song whose harmonica part is meant",
            Arity = ArgumentArity.OneOrMore,
        };
        var section = new Option<string?>("--section") { Description = "Only one section of the song", HelpName = "NAME" };
        var key = Options.Key();
        var layout = HarpOptions.Layout();
        var octaves = HarpOptions.Octaves();
        var count = Options.Count("harmonicas", 4);
        var json = Options.Json();
        var command = new Command("harps", "Rank harmonicas for a tune and give the holes: +4 blow, -4 draw, ' a semitone's bend, o over-bend, < slide")
        {
            tune, section, key, layout, octaves, count, json,
        };
        command.SetAction(parsed =>
        {
            var words = Options.ReadWords(parsed.GetRequiredValue(tune), "harkbook harps D5 E5 F#5");
            var most = Options.ReadCount(parsed.GetValue(count));
            var layouts = HarpOptions.ReadLayouts(parsed.GetValue(layout));
            // A path may hold blanks, so it is tried whole first.
            var given = parsed.GetRequiredValue(tune) is [var whole] && Path.Exists(whole) ? [whole] : words;
            var wanted = HarpTune.Read(given, parsed.GetValue(section), Options.ReadKey(parsed.GetValue(key)));
            var ranked = HarpChooser.Rank(wanted.Notes, HarpOptions.Candidates(layouts, parsed.GetValue(octaves))).Take(most).ToArray();
            Console.Out.Write(parsed.GetValue(json) ? HarpReport.Json(wanted, ranked) : HarpReport.Write(wanted, ranked));
            return 0;
        });
        return command;
    }
}
