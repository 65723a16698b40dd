using System.Collections.Immutable;
using Harkbook.Jobs.Files;
using Harkbook.Listening;
using Harkbook.Listening.Proposing;
using Harkbook.Listening.Reading;
using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Renewing;

namespace Harkbook.Jobs;

/// <summary>A song that is there, read again from what was heard: what still stands as heard is proposed anew, what a person decided stays.</summary>
public static class SongReheard
{
    /// <param name="heard">The recording's hearing, whatever it was read with.</param>
    /// <param name="now">What the person tells now, which outranks what the song's lines have decided.</param>
    /// <param name="draft">What is sure enough to be written.</param>
    /// <exception cref="UserException">What the person decided can't stand beside it.</exception>
    public static Renewed Of(SongDocument document, Hearing heard, Claims now, DraftOptions draft, CancellationToken ct) =>
        Of(document, heard, now, draft, out _, ct);

    /// <inheritdoc cref="Of(SongDocument, Hearing, Claims, DraftOptions, CancellationToken)"/>
    /// <param name="reading">What was read, from which the next reading is made faster.</param>
    public static Renewed Of(SongDocument document, Hearing heard, Claims now, DraftOptions draft, out Hearing reading, CancellationToken ct)
    {
        var song = document.Song!;
        var guitar = new KnownGuitar(now.Tuning, now.Capo);
        reading = Reader.Again(heard, Together(song, now, guitar.Or(song)), ct);
        var proposed = SongProposer.Propose(reading, song.Title, song.Recording?.Path ?? Path.GetFileName(heard.Recording.Path), draft);
        if (reading.Claims.Tuning is not null)
            document = SongText.Parse(DraftQuestions.Without(document.Text), document.FileName);
        try
        {
            return SongRenewal.Of(document, proposed, [.. guitar.ToldOver(song), .. ToldFacts(now)]);
        }
        catch (RenewalException e)
        {
            throw new UserException($"{document.FileName}:{e.Line}: {e.Message} The file was not touched.");
        }
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
}
