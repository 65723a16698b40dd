using System.Text;
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
        guitar = guitar.Or(opened.Song);
        var hearing = guitar.Apply(await Ears.HearAsync(recordingPath, afresh: false, ct), ct);
        opened.WarnOfAnother(hearing.Recording);
        var heard = guitar.Told(SongProposer.Propose(hearing, opened.Song.Title, opened.Song.Recording?.Path ?? Path.GetFileName(recordingPath)));
        var (now, text) = (File.ReadAllBytes(songPath), File.ReadAllText(songPath));
        var made = SongRenewal.Of(SongText.Parse(text, songPath), heard);
        if (made.Document.Song is null)
            throw new UserException($"{songPath}: what you decided doesn't fit what is proposed now ({made.Document.Diagnostics.First(d => d.Severity == Severity.Error).Message}) The file was not touched.");
        if (made.Document.Text == text)
        {
            Console.Out.WriteLine($"{Output.Shown(songPath)}: nothing in it that stands as heard is heard otherwise now.");
            return 0;
        }
        var place = await new EarlierFiles(songPath).ReplaceAsync(now, Encoding.UTF8.GetBytes(made.Document.Text), "start --again", DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime), ct);
        Console.Out.WriteLine($"{Output.Shown(songPath)}: proposed anew, with what you decided as it was.");
        foreach (var change in made.Changes)
            Console.Out.WriteLine("  " + change);
        Console.Out.WriteLine($"As it was before: {Output.Shown(place)}; 'harkbook rebar {Output.Shown(songPath)} --undo' gives it back.");
        return 0;
    }
}
