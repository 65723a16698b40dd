using Harkbook.Music.Songs;
using Harkbook.Music.Songs.Rebarring;
using Harkbook.Music.Theory;

namespace Harkbook.Listening.Checking;

/// <summary>At which level of the heard beat a song counts: the same, half of it, a third …</summary>
internal sealed record SongLevel(TempoLevel Level)
{
    private const double SameTempo = 0.04;

    /// <summary>
    /// How likely a tempo at a level of the heard one is at least, where listening doesn't list it, since its beats are there (our judgement).
    /// </summary>
    public static double LeastLikely => 0.2;

    public bool IsAsHeard => Level == TempoLevel.Same;

    /// <summary>"half of", "twice" …</summary>
    public string Words => (Level.Over, Level.Under) switch
    {
        (1, 2) => "half of",
        (2, 1) => "twice",
        (1, 3) => "a third of",
        (3, 1) => "three times",
        (2, 3) => "two thirds of",
        _ => "one and a half times",
    };

    /// <summary>Null where the tempo is at no level of what was heard.</summary>
    public static SongLevel? Of(Song song, Hearing hearing) => TempoLevel.Between(hearing.Tempo.Best, song.Tempo.Value) is { } level ? new(level) : null;

    public static bool IsSame(double tempo, double other) => Math.Abs(other / tempo - 1) <= SameTempo;

    /// <summary>Heard beats in a bar of the song; null where they aren't whole.</summary>
    public int? HeardBeatsIn(Meter song) => Level.Back(song.BarLength) is { Denominator: 1 } beats ? beats.Numerator : null;

    /// <summary>How many heard bars make one of the song; null where it holds less than one or no whole number of them.</summary>
    public int? HeardBarsIn(Meter song, Meter heard) =>
        HeardBeatsIn(song) is { } beats && beats % heard.BeatsPerBar == 0 ? beats / heard.BeatsPerBar : null;
}
