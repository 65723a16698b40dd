using Harkbook.Units;

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
}

/// <summary>How a claim came to stand: heard (with a confidence), decided, or corrected (with who, when and why).</summary>
/// <param name="Confidence">0 to 1 for a heard claim; null where none was given.</param>
public sealed record Standing(StandingKind Kind, double? Confidence = null, string? By = null, DateOnly? On = null, string? Why = null)
{
    public static Standing Decided { get; } = new(StandingKind.Decided);

    public static Standing Heard(double? confidence) => new(StandingKind.Heard, confidence);

    public static Standing Corrected(DateOnly on, string by, string why) => new(StandingKind.Corrected, null, by, on, why);
}

/// <summary>A value with its standing.</summary>
public sealed record Fact<T>(T Value, Standing Standing);
