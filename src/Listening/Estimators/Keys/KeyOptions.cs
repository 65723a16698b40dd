using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Keys;

/// <summary>How key regions are sought.</summary>
public sealed record KeyOptions
{
    /// <summary>How much evidence (in natural log units) a change of key must bring; 5 (restless) to 30 (hardly ever).</summary>
    public double ChangePenalty { get; init; } = 12;

    /// <summary>
    /// How far a span's word on the key counts where the chord network was asked; far below 1, because neighbouring spans look at the
    /// same music; 0.02 to 1.
    /// </summary>
    public double SpanWeight { get; init; } = 0.2;

    /// <summary>The length of a slice where beats are missing.</summary>
    public Seconds Slice { get; init; } = Seconds.FromSeconds(2);

    /// <summary>How many notes' worth of evidence a slice counts for; 1 to 8.</summary>
    public double NotesPerSlice { get; init; } = 3;
}
