using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Music.Analysis.Retuning;
using Harkbook.Music.Instruments.Strings;

namespace Harkbook.App.Commands;

internal static class SetlistCommand
{
    public static Command Create()
    {
        var songs = new Argument<string[]>("songs") { Description = "Song files, or folders of songs", Arity = ArgumentArity.OneOrMore };
        var from = new Option<string?>("--from") { Description = "The tuning before the first song; without it, standard", HelpName = "TUNING" };
        var json = Options.Json();
        var command = new Command("setlist", "Put songs into the order that asks for the least retuning, and say what to turn between them")
        {
            songs, from, json,
        };
        command.SetAction(parsed =>
        {
            var opened = SongOpening.OpenAll(parsed.GetRequiredValue(songs));
            var start = Options.ReadInstrument(parsed.GetValue(from));
            // Other instruments stand by in tunings of their own.
            var playable = opened.Where(s => s.Song.Tuning.Value.Count == start.Tuning.Count).ToArray();
            if (playable.Length == 0)
                throw new UsageException($"none of the songs is for {start.Tuning.Count} strings; give the tuning of their instrument with --from.");
            var others = opened.Except(playable).ToArray();
            var setting = new GuitarSetting(start.Tuning, Capo.None);
            var order = PlayingOrder.Of([.. playable.Select(s => GuitarSetting.Of(s.Song))], setting);
            var list = new Setlist(start.Instrument, setting, [.. order.Order.Select(i => playable[i].Song)], order, [.. others.Select(s => s.Song)]);
            Console.Out.Write(parsed.GetValue(json) ? SetlistReport.Json(list) : SetlistReport.Write(list));
            return 0;
        });
        return command;
    }
}
