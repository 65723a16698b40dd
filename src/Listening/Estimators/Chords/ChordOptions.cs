using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Chords;

/// <summary>How chords are decoded. All weights are natural logarithms or chances. The defaults suit the weighing by rules.</summary>
public sealed record ChordOptions
{
    /// <summary>
    /// For the network, chosen on 30 pieces of bench/pieces (seed 41); how sure, on pieces by others that do not judge it (docs/listening.md).
    /// </summary>
    public static ChordOptions ForNetwork { get; } = new()
    {
        EvidenceWeight = 1.8, SurenessWeight = 0.25, PriorWeight = 1.2, ChangeOnDownbeat = 0.7, ChangeOnBeat = 0.16, ChangeOffBeat = 0.04,
        Sureness = new(0.55, 0.2),
    };

    /// <summary>Frame length where beats are missing or not to be trusted.</summary>
    public Seconds FixedFrame { get; init; } = Seconds.FromSeconds(0.5);

    /// <summary>Beats longer than this are halved.</summary>
    public Seconds SlowBeat { get; init; } = Seconds.FromSeconds(0.75);

    /// <summary>Beats whose mean confidence lies below this are not used.</summary>
    public double LeastBeatConfidence { get; init; } = 0.15;

    /// <summary>How far one span's evidence counts; below 1 because neighbouring spans hold the same ringing notes.</summary>
    public double EvidenceWeight { get; init; } = 0.7;

    /// <summary>As <see cref="EvidenceWeight"/>, where it is asked how sure the chords are.</summary>
    public double SurenessWeight { get; init; } = 0.7;

    /// <summary>How sure chords are for how sure the decoding makes them; null for just as sure.</summary>
    internal Calibration? Sureness { get; init; }

    /// <summary>How far it counts what chords are usual, alone and in the key; 0 to 2.</summary>
    public double PriorWeight { get; init; } = 1;

    /// <summary>The chance that the chord changes on a downbeat.</summary>
    public double ChangeOnDownbeat { get; init; } = 0.35;

    /// <summary>The chance that it changes on another beat.</summary>
    public double ChangeOnBeat { get; init; } = 0.08;

    /// <summary>The chance that it changes between beats.</summary>
    public double ChangeOffBeat { get; init; } = 0.02;

    /// <summary>How many candidates a heard chord keeps.</summary>
    public int Candidates { get; init; } = 5;

    internal double ChangeAt(SpanPlace place) => place switch
    {
        SpanPlace.Downbeat => ChangeOnDownbeat,
        SpanPlace.Beat => ChangeOnBeat,
        SpanPlace.Between => ChangeOffBeat,
        _ => 2 * ChangeOnBeat,
    };
}
