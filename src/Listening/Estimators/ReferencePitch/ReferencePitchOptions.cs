using Harkbook.Units;

namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>How the reference pitch is sought. The defaults suit guitar and voice.</summary>
public sealed record ReferencePitchOptions
{
    /// <summary>The lowest partials looked at; below 150 Hz a peak's place is uncertain by many cents, and plucked basses start sharp.</summary>
    public Hertz Lowest { get; init; } = Hertz.FromHertz(150);

    /// <summary>The highest; above it few partials are fundamentals, and those of stiff strings stand sharp.</summary>
    public Hertz Highest { get; init; } = Hertz.FromHertz(1400);

    /// <summary>Partials this many decibels below the loudest of a frame are left out; 20 to 60.</summary>
    public double RangeDecibels { get; init; } = 36;

    /// <summary>How far from the centre a deviation still counts for it (standard deviation of a bell).</summary>
    public Cents Tolerance { get; init; } = Cents.FromCents(9);

    /// <summary>Stretches that the recording is cut into to see whether they agree; 2 to 32.</summary>
    public int Stretches { get; init; } = 8;
}
