using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>The sample rates and channels that a recording may have.</summary>
internal static class FormatLimits
{
    private const int LowestRate = 4000, HighestRate = 768_000, MostChannels = 64;

    public static SampleRate Rate(double hertz, string path) =>
        hertz is >= LowestRate and <= HighestRate && hertz == Math.Floor(hertz)
            ? SampleRate.FromHertz((int)hertz)
            : throw new RecordingException($"{path}: a sample rate of {hertz:0.##} Hz can't be used; 4000 to 768000 Hz can. Export the recording at 44100 Hz.");

    public static void RequireChannels(int channels, string path)
    {
        if (channels is < 1 or > MostChannels)
            throw new RecordingException($"{path}: {channels} channels can't be used; 1 to {MostChannels} can. Export the recording in stereo.");
    }
}
