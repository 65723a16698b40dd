using System.Runtime.InteropServices;
using Harkbook.Audio.Recordings.Samples;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>Decodes the first sound stream of a file through ffmpeg, at the file's own rate and with all its channels.</summary>
internal sealed class FfmpegSource(FfmpegProbe probe, Ffmpeg ffmpeg, string path) : SampleSource
{
    private const int BlockFrames = 1 << 14;
    private static readonly TimeSpan patience = TimeSpan.FromMinutes(2);

    private readonly byte[] bytes = new byte[BlockFrames * probe.Channels * sizeof(float)];
    private readonly float[] samples = new float[BlockFrames * probe.Channels];
    private FfmpegProcess? process;

    public override SampleRate Rate => probe.Rate;

    public override int Channels => probe.Channels;

    public override string Format => probe.Format;

    /// <summary>As the file says; where it doesn't say exactly, all of it is decoded and counted.</summary>
    public override async Task<Seconds> LengthAsync(CancellationToken cancellation)
    {
        if (probe.Length is { } length)
            return length;
        await using var counting = new FfmpegSource(probe, ffmpeg, path);
        var frames = 0L;
        for (var block = await counting.ReadAsync(cancellation); block.Length > 0; block = await counting.ReadAsync(cancellation))
            frames += block.Length / Channels;
        counting.RequireWhole(Rate.TimeOf(frames));
        return Rate.TimeOf(frames);
    }

    public override async ValueTask<ReadOnlyMemory<float>> ReadAsync(CancellationToken cancellation)
    {
        process ??= ffmpeg.StartReading(
            ["-protocol_whitelist", "file,pipe", "-i", Ffmpeg.FileArgument(path), "-map", "0:a:0", "-vn", "-c:a", "pcm_f32le", "-f", "f32le", "-ac",
                $"{Channels}", "-ar", $"{Rate.Hertz}", "pipe:1"],
            "Decoding", cancellation);
        var read = await ReadBlockAsync(process.Output, cancellation);
        if (read == 0)
            await process.FinishAsync();
        var count = read / sizeof(float) / Channels * Channels;
        bytes.AsSpan(0, count * sizeof(float)).CopyTo(MemoryMarshal.AsBytes(samples.AsSpan()));
        return samples.AsMemory(0, count);
    }

    public override void RequireWhole(Seconds read)
    {
        if (probe.Promised is { } promised && read.Value < 0.99 * promised.Value - 0.25)
            throw CutShort(path, read, promised);
    }

    public override async ValueTask DisposeAsync()
    {
        if (process is not null)
            await process.DisposeAsync();
    }

    private async Task<int> ReadBlockAsync(Stream output, CancellationToken cancellation)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        limit.CancelAfter(patience);
        try
        {
            return await output.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, limit.Token);
        }
        catch (OperationCanceledException) when (!cancellation.IsCancellationRequested)
        {
            throw new RecordingException(
                $"{path}: decoding stood still for {patience.TotalMinutes:0} minutes and was stopped. Check that the disk or network folder answers.");
        }
    }
}
