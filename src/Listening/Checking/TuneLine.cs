using Harkbook.Music.Songs;

namespace Harkbook.Listening.Checking;

/// <summary>Which heard line a section's tune is.</summary>
internal static class TuneLine
{
    /// <summary>Null where none was made out, and for a lead guitar.</summary>
    public static HeardLine? Of(Song song, Section section, Hearing hearing) => song.TunePlayerIn(section) switch
    {
        TunePlayer.Voice => hearing.Lines.Of(LineKind.Voice),
        TunePlayer.Whistle => hearing.Lines.Of(LineKind.Whistle),
        TunePlayer.Fiddle => hearing.Lines.Of(LineKind.Bowed),
        _ => null,
    };
}
