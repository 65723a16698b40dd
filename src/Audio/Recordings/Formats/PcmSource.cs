using Harkbook.Audio.Recordings.Samples;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Formats;

/// <summary>Reads a WAV or AIFF file of plain samples.</summary>
internal sealed class PcmSource : SampleSource, IDisposable
{
    private const int BlockFrames = 1 << 14;

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

    public override SampleRate Rate => Layout.Rate;

    public override int Channels => Layout.Channels;

    public override string Format => Layout.Words;

    private Seconds Length => Rate.TimeOf(Layout.Frames);

    /// <exception cref="RecordingException">Not a file of plain samples, or cut short.</exception>
    public static PcmSource Open(string path)
    {
        var stream = File.OpenRead(path);
        try
        {
            var layout = PcmHeader.Read(stream, path)
                ?? throw new RecordingException($"{path}: this isn't a WAV or AIFF file of plain samples.");
            if (layout.FramesThere < layout.Frames)
                throw CutShort(path, layout.Rate.TimeOf(layout.FramesThere), layout.Rate.TimeOf(layout.Frames));
            return new(stream, layout);
        }
        catch
        {
            stream.Dispose();
            throw;
        }
    }

    public override Task<Seconds> LengthAsync(CancellationToken cancellation) => Task.FromResult(Length);

    public override async ValueTask<ReadOnlyMemory<float>> ReadAsync(CancellationToken cancellation)
    {
        var block = bytes.AsMemory(0, NextFrames * Layout.FrameBytes);
        await stream.ReadExactlyAsync(block, cancellation);
        return Decoded(block.Span);
    }

    /// <summary>The same without waiting.</summary>
    public ReadOnlySpan<float> Read()
    {
        var block = bytes.AsSpan(0, NextFrames * Layout.FrameBytes);
        stream.ReadExactly(block);
        return Decoded(block).Span;
    }

    public override void RequireWhole(Seconds read)
    {
        // Opening has compared the promised with the actual size already.
    }

    public void Dispose() => stream.Dispose();

    public override ValueTask DisposeAsync() => stream.DisposeAsync();

    private int NextFrames => (int)Math.Min(left, BlockFrames);

    private ReadOnlyMemory<float> Decoded(ReadOnlySpan<byte> block)
    {
        var frames = block.Length / Layout.FrameBytes;
        left -= frames;
        var decoded = samples.AsMemory(0, frames * Layout.Channels);
        Layout.Sample.Decode(block, decoded.Span);
        return decoded;
    }
}
