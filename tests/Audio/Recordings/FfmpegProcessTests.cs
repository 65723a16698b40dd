using System.Diagnostics;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Audio.Tests.Signals;

namespace Harkbook.Audio.Tests.Recordings;

public sealed class FfmpegProcessTests : IDisposable
{
    private readonly TemporaryFolder folder = new();

    public void Dispose() => folder.Dispose();

    [Fact]
    public async Task WhatGoesInComesOut()
    {
        var sent = Bytes.Floats(Tones.Noise(1, 10_000));
        await using var process = Need.Ffmpeg().Start(["-f", "f32le", "-ar", "8000", "-ac", "1", "-i", "pipe:0", "-f", "f32le", "pipe:1"], "Copying", Ct);
        using var received = new MemoryStream();
        var reading = process.Output.CopyToAsync(received, Ct);
        await process.WriteAsync(sent);
        await process.FinishAsync();
        await reading;
        Assert.Equal(sent, received.ToArray());
    }

    [Fact]
    public async Task FailureSaysWhatWasDoneAndWhatFfmpegSaid()
    {
        await using var process = Need.Ffmpeg().Start(["-i", Ffmpeg.FileArgument(folder.File("gone.wav")), "-f", "null", "-"], "Making the video", Ct);
        var e = await Assert.ThrowsAsync<FfmpegException>(process.FinishAsync);
        Assert.StartsWith("Making the video failed", e.Message);
        Assert.Contains("gone.wav: No such file", e.Message);
    }

    // What the kernel says of the process (proc_pid_limits(5)).
    [Fact]
    public async Task AStrangersFileIsReadInBounds()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Bounds are held by Linux.");
        await using var process = Need.Ffmpeg().StartReading(["-f", "lavfi", "-i", "sine=d=3600", "-f", "f32le", "pipe:1"], "Decoding", Ct);
        await process.Output.ReadExactlyAsync(new byte[1024], Ct);
        var limits = await File.ReadAllTextAsync($"/proc/{process.Id}/limits", Ct);
        Assert.Matches(@"Max address space\s+4294967296\s+4294967296", limits);
        Assert.Matches(@"Max cpu time\s+1800\s+1810", limits);
    }

    [Fact]
    public async Task WritingToAProcessThatGaveUpSaysWhy()
    {
        await using var process = Need.Ffmpeg()
            .Start(["-f", "f32le", "-ar", "8000", "-ac", "1", "-i", "pipe:0", "-c:a", "nosuchcoder", "-f", "null", "-"], "Writing", Ct);
        var e = await Assert.ThrowsAsync<FfmpegException>(async () =>
        {
            for (var i = 0; i < 1000; i++)
                await process.WriteAsync(new byte[100_000]);
            await process.FinishAsync();
        });
        Assert.Contains("built without the encoder", e.Message);
    }

    [Fact]
    public async Task FullDiskIsSaid()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "Only Linux has /dev/full.");
        await using var process = Need.Ffmpeg().Start(["-f", "lavfi", "-i", "sine=440:d=60", "-y", "-f", "wav", "/dev/full"], "Writing", Ct);
        var e = await Assert.ThrowsAsync<FfmpegException>(process.FinishAsync);
        Assert.Contains("the disk is full", e.Message);
    }

    // 50 ms fit into ffmpeg's buffer, so that only closing the file meets the full disk, and ffmpeg 5.1 calls that a success.
    [Fact]
    public async Task FullDiskInTheLastMomentIsSaid()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "Only Linux has /dev/full.");
        await using var process = Need.Ffmpeg().Start(["-f", "lavfi", "-i", "sine=440:d=0.05", "-y", "-f", "wav", "/dev/full"], "Writing", Ct);
        var e = await Assert.ThrowsAsync<FfmpegException>(process.FinishAsync);
        Assert.Contains("the disk is full", e.Message);
    }

    [Fact]
    public async Task CancellingKillsTheProcess()
    {
        using var stop = new CancellationTokenSource();
        await using var process = Need.Ffmpeg().Start(["-f", "f32le", "-ar", "8000", "-ac", "1", "-i", "pipe:0", "-f", "null", "-"], "Waiting", stop.Token);
        var id = process.Id;
        await process.WriteAsync(new byte[32_000]);
        stop.Cancel();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(process.FinishAsync);
        AssertGone(id);
    }

    [Fact]
    public async Task DisposingKillsTheProcess()
    {
        var process = Need.Ffmpeg().Start(["-f", "f32le", "-ar", "8000", "-ac", "1", "-i", "pipe:0", "-f", "null", "-"], "Waiting", Ct);
        var id = process.Id;
        await process.DisposeAsync();
        AssertGone(id);
    }

    [Fact]
    public async Task CancelledEncodingLeavesNoFile()
    {
        Need.Ffmpeg();
        using var stop = new CancellationTokenSource();
        var encoding = AudioEncoder.WriteAsync(folder.File("a.mp3"), Tones.Mono(48_000, Tones.Noise(1, 48_000 * 60)), AudioFormat.Mp3, stop.Token);
        stop.Cancel();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => encoding);
        Assert.Empty(folder.Names);
    }

    [Fact]
    public async Task SameSignalEncodesToTheSameBytes()
    {
        Need.Ffmpeg();
        foreach (var name in (string[])["a.mp3", "a.m4a", "a.flac", "a.opus"])
        {
            var first = await EncodedAsync(name);
            Assert.Equal(first, await EncodedAsync(name));
        }
    }

    private static CancellationToken Ct => TestContext.Current.CancellationToken;

    private async Task<byte[]> EncodedAsync(string name)
    {
        await AudioEncoder.WriteAsync(folder.File(name), Tones.Mono(44_100, Tones.Noise(1, 44_100)), AudioEncoder.FormatOf(name)!.Value, Ct);
        return await File.ReadAllBytesAsync(folder.File(name), Ct);
    }

    private static void AssertGone(int id) => Assert.Throws<ArgumentException>(() => Process.GetProcessById(id));
}
