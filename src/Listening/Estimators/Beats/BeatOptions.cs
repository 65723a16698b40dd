namespace Harkbook.Listening.Estimators.Beats;

/// <summary>What the beat estimator looks for.</summary>
public sealed record BeatOptions
{
    /// <summary>Felt beats a minute; 20 to 100, 40 unless told.</summary>
    public double SlowestBeatsPerMinute { get; init; } = 40;

    /// <summary>Felt beats a minute; 120 to 300, 210 unless told.</summary>
    public double FastestBeatsPerMinute { get; init; } = 210;

    internal void Require()
    {
        if (SlowestBeatsPerMinute is not (>= 20 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(SlowestBeatsPerMinute), SlowestBeatsPerMinute,
                "The slowest tempo lies between 20 and 100 beats a minute.");
        if (FastestBeatsPerMinute is not (>= 120 and <= 300))
            throw new ArgumentOutOfRangeException(nameof(FastestBeatsPerMinute), FastestBeatsPerMinute,
                "The fastest tempo lies between 120 and 300 beats a minute.");
    }
}
