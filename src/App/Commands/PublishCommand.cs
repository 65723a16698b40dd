using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;

namespace Harkbook.App.Commands;

internal static class PublishCommand
{
    private static readonly Dictionary<string, LessonParts> Parts = new()
    {
        ["sheet"] = LessonParts.Sheet,
        ["diagrams"] = LessonParts.Diagrams,
        ["tab"] = LessonParts.Tab,
        ["video"] = LessonParts.Video,
        ["page"] = LessonParts.Page,
        ["chapters"] = LessonParts.Chapters,
        ["why"] = LessonParts.Explanation,
    };

    public static Command Create()
    {
        var song = Arguments.Song();
        var into = new Option<string?>("--into") { Description = "The lesson's folder; without it, 'lesson' beside the song", HelpName = "FOLDER" };
        var only = new Option<string[]>("--only")
        {
            Description = $"Some of: {string.Join(", ", Parts.Keys)}",
            HelpName = "PARTS",
            AllowMultipleArgumentsPerToken = true,
        };
        var letter = new Option<bool>("--letter") { Description = "US Letter paper instead of A4" };
        var capo = new Option<string?>("--capo") { Description = "The pupil's capo, none or a fret: other shapes for the same sound", HelpName = "FRET" };
        var sameShapes = new Option<bool>("--same-shapes") { Description = "With --capo: the shapes stay, and chords, harmonica and sound move with the capo" };
        var passage = new PassageOptions("to hand out, in a folder of its own beside the song");
        var command = new Command("publish", "Make the lesson: sheet, diagrams, tab, play-along video and page, chapters, and why it sounds so") { song, into,
            only, letter, capo, sameShapes, passage.Section, passage.Bars };
        command.SetAction(async (parsed, ct) =>
        {
            var parts = ReadParts(parsed.GetValue(only) ?? []);
            var pupil = PupilCapo.Read(parsed.GetValue(capo), parsed.GetValue(sameShapes));
            var own = SongOpening.Open(parsed.GetRequiredValue(song)).RequireBars();
            var opened = pupil?.Of(own) ?? own;
            var handOut = HandOut.Of(opened.Song, passage.Read(parsed, opened.Song));
            var folder = parsed.GetValue(into) ?? Path.Combine(opened.Folder, (pupil?.Folder ?? "lesson") + handOut?.FolderEnd);
            var options = new PublishOptions(parts, parsed.GetValue(letter) ? PaperSize.Letter : PaperSize.A4, DateTime.UtcNow.Date);
            if (handOut is not null)
                (opened, options) = (opened with { Song = handOut.Titled(opened.Song) },
                    options with { Parts = HandOut.PartsOf(parts), Only = handOut.Passage });
            var files = await PublishAsync(opened, folder, options, ct, pupil?.Shift(own.Song) ?? 0);
            foreach (var line in PublishReport.Lines(files, OlderFiles.In(folder, files)))
                Console.Out.WriteLine(line);
            foreach (var lack in parts == LessonParts.All ? [] : PublishReport.Lacking(opened.Song, options))
                Console.Out.WriteLine(lack);
            if (pupil?.Caution is { } caution)
                Console.Out.WriteLine(caution);
            return 0;
        });
        return command;
    }

    /// <summary>Publishes with the song's recording; a song without one is sounded for its play-alongs.</summary>
    /// <param name="shift">Semitones by which the recording is moved.</param>
    public static async Task<IReadOnlyList<LessonFile>> PublishAsync(SongFolder opened, string folder, PublishOptions options, CancellationToken ct,
        int shift = 0)
    {
        var steps = new StepProgress(opened.Name);
        var files = await LessonMaking.MakeAsync(opened, folder, options, shift, Console.Error.WriteLine, steps, ct);
        steps.Done();
        return files;
    }

    private static LessonParts ReadParts(string[] words)
    {
        var wanted = words.SelectMany(w => w.Split(',', StringSplitOptions.RemoveEmptyEntries)).ToArray();
        return wanted.Length == 0
            ? LessonParts.All
            : wanted.Aggregate(LessonParts.None, (parts, word) => Parts.TryGetValue(word, out var part)
                ? parts | part
                : throw new UsageException($"--only {word}: the parts are {string.Join(", ", Parts.Keys)}."));
    }
}
