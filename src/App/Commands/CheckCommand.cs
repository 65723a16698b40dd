using Harkbook.Jobs.Files;
using System.CommandLine;
using Harkbook.App.Doubts;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.App.Reports;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Listening.Interchange;
using Harkbook.Music.Songs;

namespace Harkbook.App.Commands;

internal static class CheckCommand
{
    public static Command Create()
    {
        var claims = new Argument<string[]>("what")
        {
            Description = "A song (file or folder), or a recording and its claims as a .hark, .jams, .mid or .lab file",
            Arity = new ArgumentArity(1, 2),
        };
        var all = new Option<bool>("--all") { Description = "List the supported claims too" };
        var byTime = new Option<bool>("--by-time") { Description = "List in the order of the recording, not the most doubtful first" };
        var json = new Option<bool>("--json") { Description = "Print the findings as JSON" };
        var take = new Option<string[]>("--take")
        {
            Description = "Suggestions to put into the song, by their numbers in the list (3, or 5-7) or by their bars (bar 12): shows what would change",
            HelpName = "WHICH",
            AllowMultipleArgumentsPerToken = true,
        };
        var picture = new Option<string>("--picture") { Description = "Draw the doubtful places: what is claimed over what was heard", HelpName = "FOLDER" };
        var write = new Option<bool>("--write") { Description = "With --take: write the song file" };
        var command = new Command("check", "Weigh every claim against the recording: supported, doubtful or contradicted")
        {
            claims, all, byTime, json, picture, take, write,
        };
        command.SetAction(async (parsed, ct) =>
        {
            var what = parsed.GetRequiredValue(claims);
            var chosen = string.Join(' ', parsed.GetValue(take) ?? []);
            if (chosen.Length == 0 && parsed.GetValue(write))
                throw new UsageException("--write: say which suggestions with --take, by number or by bar, as in --take 3 or --take bar 12.");
            if (chosen.Length > 0 && AnnotationFile.IsKnown(what[^1]))
                throw new UsageException("--take: suggestions are put into a song file. Give one in place of the annotation.");
            var found = await Checked.OfAsync(what, ct);
            var (result, opened) = (found.Result, found.Song);
            if (chosen.Length > 0 && opened is not null)
                return await TakeAsync(result, opened, chosen, parsed.GetValue(write), ct);
            var song = opened?.Song;
            if (result.Findings.IsEmpty && found.Hearing is not null)
                throw new UserException($"{what[^1]}: holds no bar, chord or note that could be weighed. Labels count as chords when they are written as in "
                    + "D:min7 or Dm7.");
            if (parsed.GetValue(picture) is not null && found.Hearing is null)
                throw new UsageException("--picture: there is no recording to draw. Add a line like 'recording  take.wav' to the song file.");
            Console.Out.Write(parsed.GetValue(json) ? CheckReport.Json(result)
                : found.Hearing is null && result.Findings.IsEmpty ? CheckReport.Holding(PaperCheck.Asked(song!))
                : CheckReport.Write(result, parsed.GetValue(all), parsed.GetValue(byTime)));
            if (parsed.GetValue(picture) is { } folder && found.Hearing is { } hearing)
                Draw(found, hearing, folder);
            else if (found.Hearing is null)
                Console.Error.WriteLine($"harkbook: {what[^1]}: names no recording, so only what needs none is said.");
            if (!parsed.GetValue(json) && song is not null && CapoNames.Of(song) is { HandFirst: true } names)
                Console.Out.WriteLine($"\nChords and keys have the hand's names, as in the song file: {names.Hand(song.Key.Value)} sounds {song.Key.Value}.");
            if (!parsed.GetValue(json) && song is not null && IsMostlyHeard(song))
                Console.Out.WriteLine("\nMost chords of this song are still as Harkbook heard them (~heard), so it is no wonder that they agree: this shows "
                    + "what it would doubt, not that they are right. Listen, decide, and check again.");
            return result.Findings.Any(f => f.Verdict == Verdict.Contradicted) ? Failure.Contradicted : 0;
        });
        return command;
    }

    private static void Draw(Checked found, Hearing hearing, string folder)
    {
        using var place = OutputPlace.ForFolder(folder, "--picture");
        var paths = DoubtPictures.Write(folder, hearing, found.Result, found.Claims, found.Beats);
        Console.Error.WriteLine(paths.Count == 0 ? "harkbook: nothing is doubtful, so there is nothing to draw."
            : $"harkbook: {paths.Count} {(paths.Count == 1 ? "picture" : "pictures")} of doubtful places, the most doubtful {Output.Shown(paths[0])}");
    }

    private static async Task<int> TakeAsync(CheckResult result, SongFolder opened, string chosen, bool write, CancellationToken ct)
    {
        if (RemedyChoice.Read(chosen, result, out var wrong) is not { } choice)
            throw new UsageException($"--take {wrong}: {Offer(RemedyChoice.Offered(result))}");
        if (choice.Twice is { } target)
            throw new UsageException($"--take {chosen}: these hold two suggestions for {target}. Take one of them, by its number.");
        var before = SongChange.DocumentOf(opened);
        foreach (var reach in choice.Reaches)
            Console.Error.WriteLine($"harkbook: {before.FileName}: {reach}.");
        await SongChange.ShowAsync(before, choice.Onto(before), write, $"check --take {chosen} --write", ct);
        return 0;
    }

    private static string Offer(IReadOnlyCollection<Finding> offered) => offered.Count == 0
        ? "the check suggests nothing that could be put into the song."
        : $"the check's suggestions are numbered 1 to {offered.Count}; give numbers, or bars with one, as in 1 or bar "
            + $"{offered.FirstOrDefault(f => f.Where?.Bar is not null)?.Where?.Bar ?? 1}.";

    private static bool IsMostlyHeard(Song song) => Standing.AreMostlyHeard([.. song.Bars.SelectMany(b => b.Chords).Select(c => c.Standing)]);
}
