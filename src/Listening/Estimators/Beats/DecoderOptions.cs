namespace Harkbook.Listening.Estimators.Beats;

/// <summary>How the decoder weighs its evidence.</summary>
internal sealed record DecoderOptions
{
    public double BeatWeight { get; init; } = 1;

    /// <summary>The chance at which the evidence of a frame speaks neither for a beat nor against it.</summary>
    public double UsualBeat { get; init; } = 0.18;

    public double BarWeight { get; init; } = 0.7;

    public double TempoWeight { get; init; } = 0.3;

    /// <summary>How much a tempo counts for being one that people like to tap.</summary>
    public double UsualTempoWeight { get; init; } = 0.15;

    public double MeterWeight { get; init; } = 0.3;

    /// <summary>The part of what speaks for 2/4 that stays there.</summary>
    public double CountedInTwo { get; init; } = 0.35;

    /// <summary>The cost of a change of the interval by 100 %.</summary>
    public double TempoChange { get; init; } = 30;

    /// <summary>The cost of a bar that is cut short or of a change of meter.</summary>
    public double IrregularBar { get; init; } = 4;
}
