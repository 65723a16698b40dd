namespace Harkbook.Music.Songs;

/// <summary>Who sings or plays the tune.</summary>
public enum TunePlayer
{
    Voice,
    Whistle,
    Fiddle,

    /// <summary>A guitar that plays the tune over another one's chords.</summary>
    LeadGuitar,
}

/// <summary>Players of a tune as a song file names them.</summary>
public static class TunePlayers
{
    /// <summary>"voice", "lead guitar".</summary>
    public static string InWords(this TunePlayer player) => player == TunePlayer.LeadGuitar ? "lead guitar" : player.ToString().ToLowerInvariant();

    public static TunePlayer? Read(string text) =>
        Enum.GetValues<TunePlayer>().Where(p => p.InWords() == text).Select(p => (TunePlayer?)p).FirstOrDefault();
}
