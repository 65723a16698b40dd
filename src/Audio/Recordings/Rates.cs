using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>The sample rates that a recording may have.</summary>
internal static class Rates
{
    private const int Lowest = 4000, Highest = 768_000;

    public static SampleRate Checked(double hertz, string path) =>
        hertz is >= Lowest and <= Highest && hertz == Math.Floor(hertz)
            ? SampleRate.FromHertz((int)hertz)
            : throw new RecordingException($"{path}: a sample rate of {hertz:0.##} Hz can't be used; 4000 to 768000 Hz can. Export the recording at 44100 Hz.");
}
