using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Reports;
using Harkbook.Music.Instruments.Harmonicas;
using Harkbook.Music.Instruments.Winds;

namespace Harkbook.App.Commands;

internal static class WhistlesCommand
{
    public static Command Create()
    {
        var tune = new Argument<string[]>("tune")
        {
            Description = "Sounding pitches in order, D5 E5 F#5 (C4 is middle C), or a song whose harmonica part a whistle is to play",
            Arity = ArgumentArity.OneOrMore,
        };
        var octaves = new Option<bool>("--octaves") { Description = "Also low whistles, an octave down" };
        var count = Options.Count("whistles", 2);
        var json = Options.Json();
        var command = new Command("whistles", "Rank tin whistles for a tune and draw the fingerings: ● closed, ○ open, ◐ half closed, + overblown")
        {
            tune, octaves, count, json,
        };
        command.SetAction(parsed =>
        {
            var words = Options.ReadWords(parsed.GetRequiredValue(tune), "harkbook whistles D5 E5 F#5");
            var most = Options.ReadCount(parsed.GetValue(count));
            var given = parsed.GetRequiredValue(tune) is [var whole] && Path.Exists(whole) ? [whole] : words;
            // A whistle has one voice: of notes that sound together it takes the highest.
            var notes = HarpTune.Read(given, null, null).Notes.Select(together => together.MaxBy(p => p.Midi)).ToArray();
            var whistles = from octave in parsed.GetValue(octaves) ? new[] { 0, -1 } : [0]
                           from key in Harmonica.UsualKeys.OrderBy(k => k.ToString() != "D")
                           select FingeredWind.Of(WindKind.Whistle, key, octave);
            var ranked = WindChooser.Rank(notes, whistles).Take(most).ToArray();
            Console.Out.Write(parsed.GetValue(json) ? WhistleReport.Json(notes, ranked) : WhistleReport.Write(ranked));
            return 0;
        });
        return command;
    }
}
