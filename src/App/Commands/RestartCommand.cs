using System.Collections.Immutable;
using System.Text;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Listening.Proposing;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Renewing;

namespace Harkbook.App.Commands;

/// <summary>"start --again": listens for a song that is there.</summary>
internal static class RestartCommand
{
    public static async Task<int> RunAsync(string recordingPath, string songPath, KnownGuitar guitar, CancellationToken ct)
    {
        var opened = SongFolder.Open(songPath, withHints: false);
        var told = guitar.ToldOver(opened.Song);
        guitar = guitar.Or(opened.Song);
        var hearing = guitar.Apply(await Ears.HearAsync(recordingPath, afresh: false, ct), ct);
        opened.WarnOfAnother(hearing.Recording);
        var heard = guitar.Told(SongProposer.Propose(hearing, opened.Song.Title, opened.Song.Recording?.Path ?? Path.GetFileName(recordingPath)));
        var (now, text) = (File.ReadAllBytes(songPath), File.ReadAllText(songPath));
        var made = Renew(SongText.Parse(text, songPath), heard, told);
        if (made.Document.Text == text)
        {
            Console.Out.WriteLine($"{Output.Shown(songPath)}: nothing in it that stands as heard is heard otherwise now.");
            return 0;
        }
        var wayBack = await new EarlierFiles(songPath, TimeProvider.System).ReplaceAsync(now, Encoding.UTF8.GetBytes(made.Document.Text), "start --again", ct);
        Console.Out.WriteLine($"{Output.Shown(songPath)}: {(made.Replaced ? "proposed anew; what you told now replaced what was decided, and all else that you decided is as it was." : "proposed anew; what you decided is as it was.")}");
        foreach (var change in made.Changes)
            Console.Out.WriteLine("  " + change);
        foreach (var contradiction in made.NewContradictions)
            Console.Error.WriteLine(contradiction);
        Console.Out.WriteLine(wayBack);
        return 0;
    }

    private static Renewed Renew(SongDocument document, Song heard, ImmutableArray<SongFact> told)
    {
        try
        {
            return SongRenewal.Of(document, heard, told);
        }
        catch (RenewalException e)
        {
            throw new UserException($"{document.FileName}:{e.Line}: {e.Message} The file was not touched.");
        }
    }
}
