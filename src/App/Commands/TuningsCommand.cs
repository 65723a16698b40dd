using System.CommandLine;
using System.Text.Json;
using Harkbook.App.Choices;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Music.Instruments.Hands;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.App.Commands;

internal static class TuningsCommand
{
    public static Command Create()
    {
        var instrument = new Argument<string?>("instrument") { Description = "An instrument, as guitar, ukulele or banjo; without it, all",
            Arity = ArgumentArity.ZeroOrOne };
        var json = Options.Json();
        var command = new Command("tunings", "Lists the tunings that have names, by instrument, with their strings") { instrument, json };
        command.SetAction(parsed =>
        {
            var tunings = Of(parsed.GetValue(instrument));
            Console.Out.Write(parsed.GetValue(json) ? Json(tunings) : TuningList.Write(tunings));
            return 0;
        });
        return command;
    }

    private static IReadOnlyList<NamedTuning> Of(string? instrument)
    {
        if (instrument is null)
            return TuningCatalogue.All;
        var name = FrettedInstrument.Find(instrument)?.Name;
        return TuningCatalogue.All.Where(t => t.Instrument == name).ToList() is { Count: > 0 } tunings
            ? tunings
            : throw new UsageException($"'{instrument}' is no instrument here; they are {string.Join(", ", TuningCatalogue.Instruments)}.");
    }

    private static string Json(IReadOnlyList<NamedTuning> tunings) =>
        JsonSerializer.Serialize(tunings.Select(t =>
            new { instrument = t.Instrument, name = t.Name, otherNames = t.OtherNames, strings = t.Tuning.Strings.Select(s => s.ToString()) }),
            JsonLayout.Readable) + "\n";
}
