using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Units;

namespace Harkbook.App.Commands;

internal static class StartCommand
{
    public static Command Create()
    {
        var recording = Arguments.Recording();
        var into = new Option<string?>("--into")
        {
            Description = "The song's folder; without it, a folder named after the recording beside it",
            HelpName = "FOLDER",
        };
        var title = new Option<string?>("--title") { Description = "The song's title; without it, the recording's file name", HelpName = "TEXT" };
        var claims = new ClaimOptions();
        var again = new Option<bool>("--again")
        {
            Description = "Listen for a song that is there already: what still stands as heard is proposed anew, what you decided stays",
        };
        var everything = new Option<bool>("--all")
        {
            Description = "Also write what is heard less surely than 50%, and second instruments less surely than 75%",
        };
        var bars = new BarOptions();
        var command = new Command("start",
            "Begin a song from a recording: listen, and write a song file with everything proposed, the recording copied beside it") { recording,
                into, title, again, everything };
        claims.AddTo(command);
        bars.AddShiftTo(command);
        command.SetAction(async (parsed, ct) =>
        {
            var path = parsed.GetRequiredValue(recording);
            var name = parsed.GetValue(title) ?? SongBeginning.TitleOf(path);
            if (string.IsNullOrWhiteSpace(name))
                throw new UsageException("--title is empty; give the song's title, or leave the option out.");
            claims.Require(parsed);
            var draft = parsed.GetValue(everything) ? DraftOptions.All : new();
            if (parsed.GetValue(again) && SongThere(path, parsed.GetValue(into), parsed.GetValue(title)) is { } there)
            {
                if (bars.AreGiven(parsed) || claims.TellBars(parsed))
                    throw new UsageException($"--again keeps the bars of the song that is there. Change them with 'harkbook rebar {Output.Shown(there)}'.");
                return await RestartCommand.RunAsync(path, there, claims.Pitch(parsed), h => claims.Read(parsed, h), draft, ct);
            }
            var (song, hearing, proposed) = await BeginAsync(path, parsed.GetValue(into), name, claims.Pitch(parsed), h => claims.Read(parsed, h),
                bring: true, ct, bars.AreGiven(parsed) ? document => bars.Read(parsed, document) : null, draft);
            Console.Out.WriteLine($"{Output.Shown(song)}: everything in it is marked as heard; look at it, decide, and run 'harkbook check "
                + $"{Output.Shown(Path.GetDirectoryName(Path.GetFullPath(song))!)}'.");
            WriteQuestions(hearing, proposed);
            return 0;
        });
        return command;
    }

    /// <summary>Listens and writes the song file; refuses to write over one. What is told counts as decided.</summary>
    /// <param name="pitch">The A4 that is told; null for none.</param>
    /// <param name="claims">What is told, when the recording was heard.</param>
    /// <param name="bring">Whether the recording is copied into the song's folder, where it isn't there yet.</param>
    /// <param name="draft">What is sure enough to be written; the usual where nobody says.</param>
    /// <returns>The song file's path, what it was proposed from, and what was proposed.</returns>
    public static async Task<(string SongPath, Hearing Hearing, Song Proposed)> BeginAsync(string recordingPath, string? folder, string title,
        Hertz? pitch, Func<Hearing, Claims> claims, bool bring, CancellationToken ct,
        Func<SongDocument, BarChange>? bars = null, DraftOptions? draft = null)
    {
        var beginning = new SongBeginning(folder ?? FolderOf(recordingPath), title, bring) { Bars = bars, Draft = draft ?? new() };
        beginning.RequireNone();
        using var place = OutputPlace.ForFolder(beginning.Folder, "--into");
        var heard = await WatchedEars.HearAsync(recordingPath, afresh: false, ct, about: pitch);
        var (hearing, proposed) = await beginning.WriteAsync(recordingPath, heard, claims(heard), ct);
        return (beginning.SongPath, hearing, proposed);
    }

    /// <summary>What stayed out, and what the draft asks.</summary>
    private static void WriteQuestions(Hearing hearing, Song proposed)
    {
        if (SongProposer.LeftOut(hearing, proposed) is > 0 and var left)
            Console.Out.WriteLine($"{left} claims that weren't heard surely enough stayed out; --all brings them in.");
        foreach (var line in TuningQuestion.Of(hearing, proposed).Concat(NoteQuestion.Of(hearing, proposed)))
            Console.Out.WriteLine(line);
    }

    private static string FolderOf(string recordingPath) =>
        Path.Combine(Path.GetDirectoryName(Path.GetFullPath(recordingPath))!, SongBeginning.Slug(Path.GetFileNameWithoutExtension(recordingPath)));

    /// <summary>The song that was begun from a recording: the one of the title, else the only one of the folder.</summary>
    private static string? SongThere(string recordingPath, string? folder, string? title)
    {
        folder ??= FolderOf(recordingPath);
        var named = Path.Combine(folder, SongBeginning.Slug(title ?? SongBeginning.TitleOf(recordingPath)) + SongFolder.Ending);
        return File.Exists(named) ? named : Directory.Exists(folder) && Directory.GetFiles(folder, "*" + SongFolder.Ending) is [var only]
            && title is null ? only : null;
    }
}
