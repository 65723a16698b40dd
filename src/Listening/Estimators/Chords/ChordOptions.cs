using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>How chords are decoded. All weights are natural logarithms or chances.</summary>
public sealed record ChordOptions
{
    /// <summary>Frame length where beats are missing or not to be trusted.</summary>
    public Seconds FixedFrame { get; init; } = Seconds.FromSeconds(0.5);

    /// <summary>Beats longer than this are halved.</summary>
    public Seconds SlowBeat { get; init; } = Seconds.FromSeconds(0.75);

    /// <summary>Beats whose mean confidence lies below this are not used.</summary>
    public double LeastBeatConfidence { get; init; } = 0.15;

    /// <summary>How far one span's evidence counts; below 1 because neighbouring spans hold the same ringing notes.</summary>
    public double EvidenceWeight { get; init; } = 0.7;

    /// <summary>The chance that the chord changes on a downbeat.</summary>
    public double ChangeOnDownbeat { get; init; } = 0.35;

    /// <summary>The chance that it changes on another beat.</summary>
    public double ChangeOnBeat { get; init; } = 0.08;

    /// <summary>The chance that it changes between beats.</summary>
    public double ChangeOffBeat { get; init; } = 0.02;

    /// <summary>How many candidates a heard chord keeps.</summary>
    public int Candidates { get; init; } = 5;
}
