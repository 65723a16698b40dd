using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using System.Text;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Units;

namespace Harkbook.App.Commands;

/// <summary>"start --again": listens for a song that is there.</summary>
internal static class RestartCommand
{
    public static async Task<int> RunAsync(string recordingPath, string songPath, Hertz? pitch, Func<Hearing, Claims> claims, DraftOptions draft,
        CancellationToken ct)
    {
        var opened = SongOpening.Open(songPath, withHints: false);
        var heard = await WatchedEars.HearAsync(recordingPath, afresh: false, ct, about: pitch ?? SongClaims.Of(opened.Song).ReferencePitch);
        opened.WarnOfAnother(heard.Recording);
        var (bytes, text) = (File.ReadAllBytes(songPath), File.ReadAllText(songPath));
        var made = SongReheard.Of(SongText.Parse(text, songPath), heard, claims(heard), draft, ct);
        if (made.Document.Text == text)
        {
            Console.Out.WriteLine($"{Output.Shown(songPath)}: nothing in it that stands as heard is heard otherwise now.");
            return 0;
        }
        var kept = await new EarlierFiles(songPath, TimeProvider.System).ReplaceAsync(bytes, Encoding.UTF8.GetBytes(made.Document.Text),
            "start --again", ct);
        Console.Out.WriteLine($"{Output.Shown(songPath)}: "
            + (made.Replaced
                ? "proposed anew; what you told now replaced what was decided, and all else that you decided is as it was."
                : "proposed anew; what you decided is as it was."));
        foreach (var change in made.Changes)
            Console.Out.WriteLine("  " + change);
        foreach (var contradiction in made.NewContradictions)
            Console.Error.WriteLine(contradiction);
        Console.Out.WriteLine(Output.WayBack(kept, songPath));
        return 0;
    }
}
