using System.Collections.Immutable;
using System.Text;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Renewing;
using Harkbook.Units;

namespace Harkbook.App.Commands;

/// <summary>"start --again": listens for a song that is there.</summary>
internal static class RestartCommand
{
    public static async Task<int> RunAsync(string recordingPath, string songPath, Hertz? pitch, Func<Hearing, Claims> claims, CancellationToken ct)
    {
        var opened = SongFolder.Open(songPath, withHints: false);
        var heard = await Ears.HearAsync(recordingPath, afresh: false, ct, about: pitch ?? SongClaims.Of(opened.Song).ReferencePitch);
        var now = claims(heard);
        var guitar = new KnownGuitar(now.Tuning, now.Capo);
        var hearing = Reader.Again(heard, Together(opened.Song, now, guitar.Or(opened.Song)), ct);
        opened.WarnOfAnother(hearing.Recording);
        var proposed = SongProposer.Propose(hearing, opened.Song.Title, opened.Song.Recording?.Path ?? Path.GetFileName(recordingPath));
        var (bytes, text) = (File.ReadAllBytes(songPath), File.ReadAllText(songPath));
        var made = Renew(SongText.Parse(text, songPath), proposed, [.. guitar.ToldOver(opened.Song), .. ToldFacts(now)]);
        if (made.Document.Text == text)
        {
            Console.Out.WriteLine($"{Output.Shown(songPath)}: nothing in it that stands as heard is heard otherwise now.");
            return 0;
        }
        var wayBack = await new EarlierFiles(songPath, TimeProvider.System).ReplaceAsync(bytes, Encoding.UTF8.GetBytes(made.Document.Text),
            "start --again", ct);
        Console.Out.WriteLine($"{Output.Shown(songPath)}: "
            + (made.Replaced
                ? "proposed anew; what you told now replaced what was decided, and all else that you decided is as it was."
                : "proposed anew; what you decided is as it was."));
        foreach (var change in made.Changes)
            Console.Out.WriteLine("  " + change);
        foreach (var contradiction in made.NewContradictions)
            Console.Error.WriteLine(contradiction);
        Console.Out.WriteLine(wayBack);
        return 0;
    }

    /// <summary>What the song's own lines have decided, and what is told now, which outranks it.</summary>
    private static Claims Together(Song song, Claims now, KnownGuitar guitar)
    {
        var decided = SongClaims.Of(song);
        return decided with
        {
            ReferencePitch = now.ReferencePitch ?? decided.ReferencePitch,
            Tuning = guitar.Tuning,
            Capo = guitar.Capo,
            Reach = now.Reach,
            Keys = now.Keys.IsEmpty ? decided.Keys : now.Keys,
            HarpKey = now.HarpKey ?? decided.HarpKey,
            Absent = now.Absent,
        };
    }

    private static IEnumerable<SongFact> ToldFacts(Claims now)
    {
        if (now.ReferencePitch is not null)
            yield return SongFact.Pitch;
        if (!now.Keys.IsEmpty)
            yield return SongFact.Key;
        if (now.HarpKey is not null)
            yield return SongFact.Harp;
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
