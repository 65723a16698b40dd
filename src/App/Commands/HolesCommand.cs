using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Reports;

namespace Harkbook.App.Commands;

internal static class HolesCommand
{
    public static Command Create()
    {
        var harmonica = new Argument<string[]>("harmonica") { Description = "A harmonica's key: G, or low F", Arity = ArgumentArity.OneOrMore };
        var layout = HarpOptions.Layout();
        var json = Options.Json();
        var command = new Command("holes", "Show what a harmonica gives: every hole's notes, bends and over-bends, its positions, and the chords on one breath")
        {
            harmonica, layout, json,
        };
        command.SetAction(parsed =>
        {
            var words = Options.ReadWords(parsed.GetRequiredValue(harmonica), "harkbook holes G");
            var layouts = HarpOptions.ReadLayouts(parsed.GetValue(layout));
            var harps = layouts.Select(l => HarpOptions.ReadHarmonica(words, l)).ToArray();
            Console.Out.Write(parsed.GetValue(json) ? HolesReport.Json(harps) : string.Join("\n", harps.Select(HolesReport.Write)));
            return 0;
        });
        return command;
    }
}
