using Harkbook.Music.Theory;
using Harkbook.Units;

namespace Harkbook.Music.Analysis.Retuning;

/// <summary>What happens to one string when an instrument is tuned over.</summary>
/// <param name="Number">As the trade counts, 1 for the string on the high side.</param>
public sealed record StringChange(int Number, Pitch From, Pitch To)
{
    /// <summary>Semitones up; negative for down.</summary>
    public int Semitones => To.Midi - From.Midi;

    /// <summary>Tension after over tension before, the same string on the same neck.</summary>
    public double TensionRatio => Instruments.Strings.TuningCare.TensionRatio(Semitones);

    /// <summary>Tension before; null where the string's weight isn't known.</summary>
    public Newtons? Before { get; init; }

    /// <summary>Tension after; null where the string's weight isn't known.</summary>
    public Newtons? After => Before is { } before ? before * TensionRatio : null;
}
