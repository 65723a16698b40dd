using Harkbook.Units;

namespace Harkbook.Audio.Synthesis;

internal static class SynthesisRate
{
    /// <summary>The rate, when there is room in it for what the instruments sound.</summary>
    public static SampleRate Required(SampleRate rate) =>
        rate.Hertz >= 22_050
            ? rate
            : throw new ArgumentOutOfRangeException(nameof(rate), rate.Hertz, "Sound is made at 22 050 Hz or more; resample afterwards for less.");
}
