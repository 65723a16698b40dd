namespace Harkbook.Music.Songs;

/// <summary>Who stands behind a claim.</summary>
public enum StandingKind
{
    /// <summary>A person said so. The default, since a plain line in a song file is a person's.</summary>
    Decided,

    /// <summary>The program proposed it from the recording.</summary>
    Heard,

    /// <summary>A person changed it after publication.</summary>
    Corrected,

    /// <summary>Nobody said so: the file leaves it out and the usual value stands in.</summary>
    Assumed,
}

/// <summary>How a claim came to stand: heard (with a confidence), decided, corrected (with who, when and why), or merely assumed.</summary>
/// <param name="Confidence">0 to 1 for a heard claim, kept in whole percents by the song file; null where none was given.</param>
public sealed record Standing(StandingKind Kind, double? Confidence = null, string? By = null, DateOnly? On = null, string? Why = null)
{
    /// <summary>The most that heard claims are given: nothing heard is certain.</summary>
    public const double MostHeard = 0.99;

    public static Standing Decided { get; } = new(StandingKind.Decided);

    public static Standing Assumed { get; } = new(StandingKind.Assumed);

    public static Standing Heard(double? confidence) => new(StandingKind.Heard, confidence);

    /// <summary>Heard, with the confidence rounded to the whole percent that a song file keeps.</summary>
    public static Standing HeardToThePercent(double confidence) => Heard(Math.Round(Math.Clamp(confidence, 0, MostHeard) * 100) / 100);

    /// <summary>Whether more than half of some claims are heard and no person stands behind them.</summary>
    public static bool AreMostlyHeard(IReadOnlyCollection<Standing> claims) => claims.Count(c => c.Kind == StandingKind.Heard) * 2 > claims.Count;

    public static Standing Corrected(DateOnly on, string by, string why) => new(StandingKind.Corrected, null, by, on, why);
}

/// <summary>A value with its standing.</summary>
public sealed record Fact<T>(T Value, Standing Standing);
