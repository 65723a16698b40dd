using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Making;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Demo;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Evaluation;
using Harkbook.Music.Analysis.Songbooks;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Commands;

/// <summary>
/// The whole job on an invented songbook: our own players record two songs, Harkbook listens without having seen them,
/// its hearing is scored against what was played, the songs are checked and published.
/// </summary>
internal static class DemoCommand
{
    public static Command Create()
    {
        var into = new Option<string>("--into")
        {
            Description = "Where the demo's files go",
            HelpName = "FOLDER",
            DefaultValueFactory = _ => Path.Combine("out", "demo"),
        };
        var command = new Command("demo", "Run the whole job on an invented songbook: record, start, listen, check, publish") { into };
        command.SetAction(async (parsed, ct) =>
        {
            var folder = Path.GetFullPath(parsed.GetRequiredValue(into));
            using var place = OutputPlace.ForFolder(folder, "--into");
            foreach (var (source, index) in InventedSong.Sources.Select((s, i) => (s, i)))
                await RunAsync(source, Path.Combine(folder, Path.GetFileName(source)), explained: index == 0, ct);
            await WriteIndexAsync(folder, ct);
            Console.Out.WriteLine($"\nLook around in {folder}: each song's .hark file, what was heard (heard/), and its lesson (lesson/).");
            Console.Out.WriteLine($"Or have the songs open on the workbench, in your browser: ./harkbook open {Output.Shown(folder)}");
            return 0;
        });
        return command;
    }

    private static async Task RunAsync(string source, string folder, bool explained, CancellationToken ct)
    {
        var invented = await InventedSong.ReadAsync(source, ct);
        var song = invented.Song;
        Heading($"{song.Title}, by {song.Player}");

        Say("Recording: our own strings, reeds and voice, played unevenly in a room, onto a tape at the wrong speed.");
        var take = await invented.RecordAsync(folder, ct);
        var recording = invented.RecordingIn(folder);
        Say($"  {Output.Shown(recording)}, {HearingReport.Clock(take.Sound.Duration)}");

        Say("Start: listen, knowing nothing of the song, and propose everything.");
        var heardFolder = Path.Combine(folder, "heard");
        if (Directory.Exists(heardFolder))
            Directory.Delete(heardFolder, recursive: true);
        var (proposed, hearing, _) = await StartCommand.BeginAsync(recording, heardFolder, song.Title, pitch: null, _ => Claims.None, bring: false, ct);
        Say($"  {Output.Shown(proposed)}");

        Say("How well it heard, against what was really played:");
        Say(ScoreTable.Write([(invented.Name, Evaluator.Score(hearing, DemoAnnotation.Of(take)))], explained));

        Say("Decide: the teacher's own song file, its bars tied to the times that the players know.");
        var decided = invented.SongIn(folder);
        await Output.WriteTextAsync(decided, invented.Written, ct);
        Say($"  {Output.Shown(decided)}");

        Say("Check: every claim of it against the recording.");
        var opened = SongOpening.Open(decided);
        Say(CheckReport.Write(new Checker(hearing).Check(opened.Song), all: false));

        Say("Publish:");
        var options = new PublishOptions(LessonParts.All, PaperSize.A4, DateTime.UtcNow.Date);
        foreach (var line in PublishReport.Lines(await PublishCommand.PublishAsync(opened, Path.Combine(folder, "lesson"), options, ct), []))
            Say("  " + line);
    }

    private static async Task WriteIndexAsync(string folder, CancellationToken ct)
    {
        Heading("The songs together");
        var book = Songbook.Of(SongOpening.OpenAll([folder]).Select(s => s.Song));
        var index = Path.Combine(folder, "songbook.pdf");
        await SongbookPublisher.WriteAsync(book, index, PaperSize.A4, DateTime.UtcNow.Date, ct);
        Say($"  {Output.Shown(index)}  the songbook's index to print");
        foreach (var finding in book.Findings)
            Say($"  {finding.Sentence}");
    }

    private static void Heading(string text) => Say($"\n{text}\n{new string('─', text.Length)}");

    private static void Say(string text) => Console.Out.WriteLine(text.TrimEnd('\n'));
}
