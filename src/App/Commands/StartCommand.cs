using System.CommandLine;
using System.Text;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;

namespace Harkbook.App.Commands;

internal static class StartCommand
{
    public static Command Create()
    {
        var recording = Arguments.Recording();
        var into = new Option<string?>("--into") { Description = "The song's folder; without it, a folder named after the recording beside it", HelpName = "FOLDER" };
        var title = new Option<string?>("--title") { Description = "The song's title; without it, the recording's file name", HelpName = "TEXT" };
        var (tuning, capo) = (KnownGuitar.TuningOption(), KnownGuitar.CapoOption());
        var command = new Command("start", "Begin a song from a recording: listen, and write a song file with everything proposed, the recording copied beside it") { recording, into, title, tuning, capo };
        command.SetAction(async (parsed, ct) =>
        {
            var path = parsed.GetRequiredValue(recording);
            var name = parsed.GetValue(title) ?? TitleOf(path);
            if (string.IsNullOrWhiteSpace(name))
                throw new UsageException("--title is empty; give the song's title, or leave the option out.");
            var (song, _) = await BeginAsync(path, parsed.GetValue(into), name, KnownGuitar.Read(parsed.GetValue(tuning), parsed.GetValue(capo)), bring: true, ct);
            Console.Out.WriteLine($"{Output.Shown(song)}: everything in it is marked as heard; look at it, decide, and run 'harkbook check {Output.Shown(Path.GetDirectoryName(Path.GetFullPath(song))!)}'.");
            return 0;
        });
        return command;
    }

    /// <summary>Listens and writes the song file; refuses to write over one. A tuning or capo that is told counts as decided.</summary>
    /// <param name="bring">Whether the recording is copied into the song's folder, where it isn't there yet.</param>
    /// <returns>The song file's path and what it was proposed from.</returns>
    public static async Task<(string SongPath, Hearing Hearing)> BeginAsync(string recordingPath, string? folder, string title, KnownGuitar guitar, bool bring, CancellationToken ct)
    {
        folder ??= Path.Combine(Path.GetDirectoryName(Path.GetFullPath(recordingPath))!, Slug(Path.GetFileNameWithoutExtension(recordingPath)));
        var songPath = Path.Combine(folder, Slug(title) + SongFolder.Ending);
        if (File.Exists(songPath))
            throw new UserException($"{songPath} is there already and was not touched. Choose another folder with --into, or delete it first.");
        using var place = OutputPlace.ForFolder(folder, "--into");
        var hearing = guitar.Apply(await Ears.HearAsync(recordingPath, afresh: false, ct), ct);
        var song = SongProposer.Propose(hearing, title, bring ? await RecordingCopy.BringAsync(hearing.Recording with { Path = recordingPath }, folder, ct) : Relative(folder, recordingPath));
        if (guitar.IsKnown)
            song = song with { Tuning = song.Tuning with { Standing = Standing.Decided }, Capo = song.Capo with { Standing = Standing.Decided } };
        await Output.WriteTextAsync(songPath, SongText.Write(song), ct);
        return (songPath, hearing);
    }

    private static string Relative(string folder, string path) =>
        Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(path)).Replace('\\', '/');

    /// <summary>"night_train-02" → "Night train 02".</summary>
    private static string TitleOf(string path)
    {
        var words = Path.GetFileNameWithoutExtension(path).Replace('_', ' ').Replace('-', ' ').Trim();
        return words.Length == 0 ? "Untitled" : char.ToUpperInvariant(words[0]) + words[1..];
    }

    /// <summary>Letters and digits in lower case, words joined by hyphens.</summary>
    private static string Slug(string title)
    {
        var slug = new StringBuilder();
        foreach (var c in title.ToLowerInvariant())
        {
            if (char.IsLetterOrDigit(c))
                slug.Append(c);
            else if (slug.Length > 0 && slug[^1] != '-')
                slug.Append('-');
        }
        var text = slug.ToString().Trim('-');
        return text.Length == 0 ? "song" : text;
    }
}
