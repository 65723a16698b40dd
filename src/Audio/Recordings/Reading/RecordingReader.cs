using System.Security.Cryptography;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Samples;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Reading;

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

    /// <summary>Decodes the whole recording, every channel as the file has it, into temporary files, from which it can be read in any order as often as
    /// wanted.</summary>
    /// <param name="recording">As <see cref="InspectAsync(string, CancellationToken)"/> gave it.</param>
    /// <param name="rate">The rate of the result.</param>
    /// <param name="progress">0 to 1.</param>
    /// <returns>To be disposed of.</returns>
    /// <exception cref="RecordingException">The file is cut short, silent, damaged or has gone.</exception>
    /// <exception cref="UnwritableFileException">There is no room for the samples.</exception>
    public static Task<StoredSound> StoreAsync(Recording recording, SampleRate rate, IProgress<double>? progress = null,
        CancellationToken cancellation = default) =>
        StoreAsync(recording, rate, progress, Ffmpeg.Find(), cancellation);

    internal static Task<Recording> InspectAsync(string path, Ffmpeg? ffmpeg, CancellationToken cancellation) =>
        FileErrors.InWordsAsync(path, async () =>
        {
            FileErrors.RequireFile(path);
            await using var source = await SampleOpening.OpenAsync(path, ffmpeg, cancellation);
            var length = await source.LengthAsync(cancellation);
            RecordingLength.Require(length, path);
            return new Recording(path, source.Rate, source.Channels, length, await HashAsync(path, cancellation), source.Format);
        });

    internal static async Task<Signal> ReadAsync(
        Recording recording, SampleRate rate, bool mono, IProgress<double>? progress, Ffmpeg? ffmpeg, CancellationToken cancellation)
    {
        SampleArray[] stores = [];
        await TakeInAsync(recording, rate,
            channels => stores = [.. Enumerable.Range(0, mono ? 1 : channels).Select(_ => new SampleArray(rate.SamplesIn(recording.Length)))], progress,
            ffmpeg, cancellation);
        return new(rate, [.. stores.Select(s => s.Finish())]);
    }

    internal static async Task<StoredSound> StoreAsync(
        Recording recording, SampleRate rate, IProgress<double>? progress, Ffmpeg? ffmpeg, CancellationToken cancellation)
    {
        StoredSound? sound = null;
        try
        {
            await TakeInAsync(recording, rate, channels => (sound = StoredSound.Empty(rate, channels)).Stores, progress, ffmpeg, cancellation);
            return sound!;
        }
        catch
        {
            sound?.Dispose();
            throw;
        }
    }

    private static Task<bool> TakeInAsync(
        Recording recording, SampleRate rate, Func<int, IReadOnlyList<ISampleStore>> stores, IProgress<double>? progress, Ffmpeg? ffmpeg,
            CancellationToken cancellation) =>
        FileErrors.InWordsAsync(recording.Path, async () =>
        {
            FileErrors.RequireFile(recording.Path);
            await using var source = await SampleOpening.OpenAsync(recording.Path, ffmpeg, cancellation);
            var intake = new SampleIntake(recording.Path, source, rate, stores(source.Channels));
            for (var block = await source.ReadAsync(cancellation); block.Length > 0; block = await source.ReadAsync(cancellation))
            {
                intake.Take(block.Span);
                progress?.Report(Math.Min(1, intake.Duration / recording.Length));
                cancellation.ThrowIfCancellationRequested();
            }
            source.RequireWhole(intake.Duration);
            intake.Finish();
            progress?.Report(1);
            return true;
        });

    private static async Task<string> HashAsync(string path, CancellationToken cancellation)
    {
        await using var stream = File.OpenRead(path);
        return Convert.ToHexStringLower(await SHA256.HashDataAsync(stream, cancellation));
    }
}
