using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Where the samples of an uncompressed file stand.</summary>
/// <param name="Start">The first byte of sound.</param>
/// <param name="Frames">Samples a channel that the file promises.</param>
/// <param name="FramesThere">Samples a channel that are there; fewer when the file is cut short.</param>
internal sealed record PcmLayout(string Container, SampleRate Rate, int Channels, SampleFormat Sample, long Start, long Frames, long FramesThere)
{
    public int FrameBytes => Channels * Sample.Bytes;

    public string Words => $"{Container}, {Sample.Words}";
}
