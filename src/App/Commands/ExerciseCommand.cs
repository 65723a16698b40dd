using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Making;
using Harkbook.App.Messages;
using Harkbook.Music.Analysis.Practice;

namespace Harkbook.App.Commands;

internal static class ExerciseCommand
{
    public static Command Create()
    {
        var song = Arguments.Song();
        var passage = new PassageOptions("to practise; without --section, --bars and --change, the first section that is sung, or else played");
        var change = new Option<string[]?>("--change")
        {
            Description = "Two chords to change between, as the song names them; alone, the change of shape that moves the strings most",
            HelpName = "CHORDS",
            Arity = new ArgumentArity(0, 2),
            AllowMultipleArgumentsPerToken = true,
        };
        var speeds = new Option<string>("--speeds")
        {
            Description = "Percents of the song's tempo, in order",
            HelpName = "PERCENTS",
            DefaultValueFactory = _ => "60,75,90,100",
        };
        var rounds = new Option<int>("--rounds")
        {
            Description = "How often the bars are played at each speed",
            HelpName = "TIMES",
            DefaultValueFactory = _ => 4,
        };
        var between = new Option<string?>("--between")
        {
            Description = "What comes between rounds: count (a counted bar) or rest (a silent one); without it, nothing",
            HelpName = "WHAT",
        };
        var quiet = new Option<bool>("--no-click") { Description = "Clicks only in the counted bars" };
        var record = new Option<bool>("--record") { Description = "Practise with the recording itself, slowed down, instead of our own strings" };
        var video = new Option<bool>("--video") { Description = "Make a video of it too" };
        var into = new Option<string?>("--into")
        {
            Description = "Where the files go; without it, a folder beside the song named after what is practised, as exercise-bars-5-8",
            HelpName = "FOLDER",
        };
        var command = new Command("exercise", "Practise some bars or a chord change slow to fast: drawn, sounded with count-in and click, filmed")
        {
            song, passage.Section, passage.Bars, change, speeds, rounds, between, quiet, record, video, into,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var chords = parsed.GetResult(change) is null ? null : parsed.GetValue(change) ?? [];
            var paces = PracticeWish.ReadSpeeds(parsed.GetRequiredValue(speeds));
            var lead = PracticeWish.ReadBetween(parsed.GetValue(between));
            if (parsed.GetValue(rounds) is < 1 or > 16)
                throw new UsageException($"--rounds {parsed.GetValue(rounds)}: give 1 to 16.");
            PracticeWish.Require(chords, parsed.GetValue(record));
            var opened = SongOpening.Open(parsed.GetRequiredValue(song)).RequireBars();
            var bars = passage.Read(parsed, opened.Song);
            if (chords is not null && bars is not null)
                throw new UsageException("--change says what to practise, and so do --section and --bars; give one of them.");
            var practised = chords is null ? PracticeWish.Passage(opened, bars) : PracticeWish.Drill(opened, chords);
            var options = new PracticeOptions
            {
                FirstBar = practised.FirstBar,
                LastBar = practised.LastBar,
                Speeds = paces,
                Rounds = parsed.GetValue(rounds),
                Lead = lead,
                AsRecorded = parsed.GetValue(record),
            };
            var folder = parsed.GetValue(into) ?? Path.Combine(opened.Folder, "exercise-" + practised.FolderEnd);
            var making = new PracticeMaking(opened, practised, options, folder);
            await making.MakeAsync(new(!parsed.GetValue(quiet), parsed.GetValue(record), parsed.GetValue(video)), ct);
            return 0;
        });
        return command;
    }
}
