using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using System.Globalization;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.App.Making;

/// <summary>A recording, or a part of it, for the ear.</summary>
internal static class PartAudition
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(44_100);

    /// <param name="what">A song or a recording.</param>
    /// <param name="to">Where it goes; null for a file beside the song or the recording.</param>
    public static async Task<int> RunAsync(string what, SoundPart part, double speed, string? to, CancellationToken ct)
    {
        var isSong = Directory.Exists(what) || Path.GetExtension(what).Equals(SongFolder.Ending, StringComparison.OrdinalIgnoreCase);
        var recording = isSong ? SongOpening.Open(what).RequireRecording() : what;
        var path = to ?? Path.Combine(Path.GetDirectoryName(Path.GetFullPath(recording))!,
            $"{Path.GetFileNameWithoutExtension(recording)}-{RecordingPart.FileName(part)}.wav");
        if (Path.GetFullPath(path) == Path.GetFullPath(recording))
            throw new UsageException($"--to {to}: this is the recording itself, which is never written over. Name another file.");
        using var place = OutputPlace.ForFile(path, "--to");
        var sound = await ReadAsync(recording, part, speed, ct);
        await SoundFile.WriteAsync(path, sound, ct);
        Console.Out.WriteLine($"{path}: only {part}, as loud as it is in the whole at about -18 LUFS; start with the volume low.");
        return 0;
    }

    /// <param name="part">Null for the whole recording.</param>
    /// <param name="speed">The pitch stays.</param>
    public static async Task<Signal> ReadAsync(string path, SoundPart? part, double speed, CancellationToken ct)
    {
        if (part is not null)
            Ears.Require(part, await RecordingReader.InspectAsync(path, ct));
        var whole = await ReadWholeAsync(path, speed, ct);
        return part is null ? whole : await Task.Run(() => RecordingPart.Levelled(part.Of(whole, ct), whole), ct);
    }

    /// <summary>A stretch of a recording at a speed; the pitch stays.</summary>
    public static Task<Signal> ReadPassageAsync(string path, Seconds from, Seconds to, double speed, CancellationToken ct)
    {
        var start = Math.Max(0, from.Value);
        return ReadStretchedAsync(path, ["-ss", Text(start), "-t", Text(to.Value - start)], speed, ct);
    }

    private static async Task<Signal> ReadWholeAsync(string path, double speed, CancellationToken ct) =>
        speed == 1
            ? await RecordingReader.ReadAsync(await RecordingReader.InspectAsync(path, ct), Rate, mono: false, null, ct)
            : await ReadStretchedAsync(path, [], speed, ct);

    private static async Task<Signal> ReadStretchedAsync(string path, string[] span, double speed, CancellationToken ct)
    {
        var stretched = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");
        // Rubber Band keeps onsets within a millisecond, where other stretchers smear them by tens.
        string[] filter = speed == 1 ? [] : ["-af", $"rubberband=tempo={Text(speed)}"];
        try
        {
            await using var process = Ffmpeg.Required("Slowing the recording down").Start(
                ["-y", .. span, "-i", Ffmpeg.FileArgument(path), "-map", "0:a:0", .. filter, stretched],
                $"Slowing the recording down, by way of {Path.GetTempPath()},", ct);
            await process.FinishAsync();
            return await RecordingReader.ReadAsync(await RecordingReader.InspectAsync(stretched, ct), Rate, mono: false, null, ct);
        }
        finally
        {
            File.Delete(stretched);
        }
    }

    private static string Text(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);
}
