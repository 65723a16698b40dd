using System.Security.Cryptography;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings;

/// <summary>
/// Looks at and decodes sound files. WAV and AIFF are read here; every other format, and the sound of videos, goes through ffmpeg.
/// </summary>
/// <remarks>Time 0 is the first sample of the sound, with the silence that a coder adds at the start already taken off.</remarks>
public static class RecordingReader
{
    /// <summary>Reads what a sound file is, and its hash, without keeping its samples.</summary>
    /// <exception cref="RecordingException">The file can't be used.</exception>
    public static Task<Recording> InspectAsync(string path, CancellationToken cancellation = default) =>
        InspectAsync(path, Ffmpeg.Find(), cancellation);

    /// <summary>Decodes the whole recording at a sample rate, block by block, so that only the result is held in memory.</summary>
    /// <param name="recording">As <see cref="InspectAsync(string, CancellationToken)"/> gave it.</param>
    /// <param name="rate">The rate of the result.</param>
    /// <param name="mono">True: the mean of all channels. False: every channel as the file has it.</param>
    /// <param name="progress">0 to 1.</param>
    /// <exception cref="RecordingException">The file is cut short, silent, damaged or has gone.</exception>
    public static Task<Signal> ReadAsync(
        Recording recording, SampleRate rate, bool mono, IProgress<double>? progress = null, CancellationToken cancellation = default) =>
        ReadAsync(recording, rate, mono, progress, Ffmpeg.Find(), cancellation);

    internal static Task<Recording> InspectAsync(string path, Ffmpeg? ffmpeg, CancellationToken cancellation) =>
        FileErrors.InWordsAsync(path, async () =>
        {
            FileErrors.RequireFile(path);
            await using var source = await SampleSource.OpenAsync(path, ffmpeg, cancellation);
            var length = await source.LengthAsync(cancellation);
            RecordingLength.Require(length, path);
            return new Recording(path, source.Rate, source.Channels, length, await HashAsync(path, cancellation), source.Format);
        });

    internal static Task<Signal> ReadAsync(
        Recording recording, SampleRate rate, bool mono, IProgress<double>? progress, Ffmpeg? ffmpeg, CancellationToken cancellation) =>
        FileErrors.InWordsAsync(recording.Path, async () =>
        {
            FileErrors.RequireFile(recording.Path);
            await using var source = await SampleSource.OpenAsync(recording.Path, ffmpeg, cancellation);
            var intake = new SampleIntake(recording.Path, source, mono, rate, recording.Length);
            for (var block = await source.ReadAsync(cancellation); block.Length > 0; block = await source.ReadAsync(cancellation))
            {
                intake.Take(block.Span);
                progress?.Report(Math.Min(1, intake.Duration / recording.Length));
                cancellation.ThrowIfCancellationRequested();
            }
            source.RequireWhole(intake.Duration);
            progress?.Report(1);
            return intake.Finish();
        });

    private static async Task<string> HashAsync(string path, CancellationToken cancellation)
    {
        await using var stream = File.OpenRead(path);
        return Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancellation));
    }
}
