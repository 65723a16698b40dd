using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Reports;
using Harkbook.Music.Analysis.Explaining;
using Harkbook.Music.Songs;

namespace Harkbook.App.Commands;

internal static class ExplainCommand
{
    public static Command Create()
    {
        var song = Arguments.Song();
        var facts = new Option<bool>("--facts") { Description = "Write below each sentence what was computed and how" };
        var with = new Option<string[]>("--with")
        {
            Description = "Other songs (files or folders) to compare it with",
            HelpName = "SONGS",
            AllowMultipleArgumentsPerToken = true,
        };
        var json = new Option<bool>("--json") { Description = "Print the explanation, with all facts, as JSON" };
        var passage = new PassageOptions("to explain, leaving out what is said of the whole song");
        var command = new Command("explain", "Say why a song sounds as it does: harmony, layers, hands, harp, singing, tuning") { song, passage.Section,
            passage.Bars, facts, with, json };
        command.SetAction(parsed =>
        {
            var opened = SongOpening.Open(parsed.GetRequiredValue(song));
            Song[] others = [.. SongOpening.OpenAll(parsed.GetValue(with) ?? []).Where(o => Path.GetFullPath(o.SongPath) != Path.GetFullPath(opened.SongPath))
                .Select(o => o.Song)];
            var bars = passage.Read(parsed, opened.Song);
            var whole = Explanation.Of(opened.Song, others);
            var explanation = bars is { } asked ? whole.Within(asked.First, asked.Last) : whole;
            if (explanation.Remarks.IsEmpty && !whole.Remarks.IsEmpty)
                Console.Error.WriteLine($"harkbook: nothing is said of bars {bars?.First} to {bars?.Last} that isn't said of the whole song; leave "
                    + $"{(parsed.GetValue(passage.Section) is null ? "--bars" : "--section")} out to read that.");
            Console.Out.Write(parsed.GetValue(json) ? ExplanationReport.Json(explanation) : ExplanationReport.Text(explanation, parsed.GetValue(facts)));
            return 0;
        });
        return command;
    }
}
