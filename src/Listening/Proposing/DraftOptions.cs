namespace Harkbook.Listening.Proposing;

/// <summary>What of a hearing goes into a draft.</summary>
public sealed record DraftOptions
{
    /// <summary>What is heard less surely than this stays out (0–1). Facts of the whole song always stand, with how sure they are.</summary>
    public double LeastSure { get; init; } = 0.5;

    /// <summary>A second instrument must be heard as surely as this.</summary>
    public double LeastSureOfInstrument { get; init; } = 0.75;

    /// <summary>All that is heard, however unsure.</summary>
    public static DraftOptions All { get; } = new() { LeastSure = 0, LeastSureOfInstrument = 0 };
}
