using Harkbook.Jobs.Files;
using Harkbook.Listening;
using Harkbook.Music.Instruments.Strings;
using Harkbook.Music.Songs;

namespace Harkbook.Jobs;

/// <summary>A song whose tuning a person says.</summary>
public static class SongTuned
{
    /// <summary>
    /// The tuning decided. Where tab stands on strings that the tuning hasn't, the tab that was only heard is heard anew with all that hangs on it.
    /// </summary>
    /// <param name="heard">Null where there is no recording.</param>
    /// <exception cref="UserException">Tab that a person decided stands on other strings.</exception>
    public static SongDocument Of(SongDocument document, Tuning tuning, Hearing? heard, CancellationToken ct)
    {
        var plain = document.WithFact(SongFact.Tuning, tuning.ToString(), Standing.Decided);
        return plain.Song is not null || heard is null ? plain
            : SongReheard.Of(document, heard, Claims.None with { Tuning = tuning }, new(), ct).Document.WithFactStanding(SongFact.Tuning, Standing.Decided);
    }
}
