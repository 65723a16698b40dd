using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>Reads the samples of a WAV or AIFF file block by block.</summary>
internal sealed class PcmSource : IDisposable
{
    private const int BlockFrames = 1 << 15;

    private readonly FileStream stream;
    private readonly byte[] bytes;
    private readonly float[] samples;
    private long left;

    private PcmSource(FileStream stream, PcmLayout layout)
    {
        (this.stream, Layout, left) = (stream, layout, layout.Frames);
        bytes = new byte[BlockFrames * layout.FrameBytes];
        samples = new float[BlockFrames * layout.Channels];
        stream.Position = layout.Start;
    }

    public PcmLayout Layout { get; }

    /// <exception cref="RecordingException">Not a file of plain samples, or cut short.</exception>
    public static PcmSource Open(string path)
    {
        var stream = File.OpenRead(path);
        try
        {
            var layout = PcmHeader.Read(stream, path)
                ?? throw new RecordingException($"{path}: this isn't a WAV or AIFF file of plain samples.");
            RequireWhole(layout, path);
            return new(stream, layout);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }

    /// <summary>The next frames, channels interleaved; empty at the end. The span holds until the next call.</summary>
    public ReadOnlySpan<float> Read()
    {
        var frames = (int)Math.Min(left, BlockFrames);
        var block = bytes.AsSpan(0, frames * Layout.FrameBytes);
        stream.ReadExactly(block);
        Layout.Sample.Decode(block, samples.AsSpan(0, frames * Layout.Channels));
        left -= frames;
        return samples.AsSpan(0, frames * Layout.Channels);
    }

    public void Dispose() => stream.Dispose();

    private static void RequireWhole(PcmLayout layout, string path)
    {
        if (layout.FramesThere < layout.Frames)
        {
            var (there, promised) = (Words.Time(layout.Rate.TimeOf(layout.FramesThere)), Words.Time(layout.Rate.TimeOf(layout.Frames)));
            throw new RecordingException($"{path}: the file is cut short: {there} of {promised} can be read. Copy or export it again; or keep what is there with: ffmpeg -i INPUT part.wav");
        }
    }
}
