using Harkbook.Listening.Checking;
using Harkbook.Music.Songs;

namespace Harkbook.Jobs;

/// <summary>Weighs a song's claims: on paper, and against its recording.</summary>
public static class SongCheck
{
    /// <summary>What needs no recording to be known wrong comes first; all in the names that the song's file writes.</summary>
    /// <param name="checker">Null where the song has no recording.</param>
    public static CheckResult Of(SongDocument document, Checker? checker)
    {
        var (song, paper) = (document.Song!, PaperCheck.Of(document));
        var result = checker?.Check(song) ?? new([]);
        return OwnNames.Of(result with { Findings = [.. paper, .. result.Findings] }, song);
    }
}
