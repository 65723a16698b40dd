using System.Globalization;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.App.Commands;

/// <summary>A recording, or a part of it, for the ear.</summary>
internal static class PartAudition
{
    private static readonly SampleRate Rate = SampleRate.FromHertz(44_100);

    /// <param name="what">A song or a recording.</param>
    /// <param name="to">Where it goes; null for a file beside the song or the recording.</param>
    public static async Task<int> RunAsync(string what, SoundPart part, double speed, string? to, CancellationToken ct)
    {
        var isSong = Directory.Exists(what) || Path.GetExtension(what).Equals(SongFolder.Ending, StringComparison.OrdinalIgnoreCase);
        var recording = isSong ? SongFolder.Open(what).RequireRecording() : what;
        var path = to ?? Path.Combine(Path.GetDirectoryName(Path.GetFullPath(recording))!, $"{Path.GetFileNameWithoutExtension(recording)}-{RecordingPart.FileName(part)}.wav");
        if (Path.GetFullPath(path) == Path.GetFullPath(recording))
            throw new UsageException($"--to {to}: this is the recording itself, which is never written over. Name another file.");
        using var place = OutputPlace.ForFile(path, "--to");
        var sound = await ReadAsync(recording, part, speed, ct);
        await AuditionCommand.WriteAsync(path, sound, ct);
        Console.Out.WriteLine($"{path}: only {part}, as loud as it is in the whole at about -18 LUFS; start with the volume low.");
        return 0;
    }

    /// <param name="part">Null for the whole recording.</param>
    /// <param name="speed">The pitch stays.</param>
    public static async Task<Signal> ReadAsync(string path, SoundPart? part, double speed, CancellationToken ct)
    {
        if (part is not null)
            RecordingPart.Require(part, await RecordingReader.InspectAsync(path, ct));
        var whole = await ReadWholeAsync(path, speed, ct);
        return part is null ? whole : await Task.Run(() => RecordingPart.Levelled(part.Of(whole, ct), whole), ct);
    }

    private static async Task<Signal> ReadWholeAsync(string path, double speed, CancellationToken ct)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        if (speed == 1)
            return await RecordingReader.ReadAsync(recording, Rate, mono: false, null, ct);
        var stretched = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.wav");
        try
        {
            // Rubber Band keeps onsets within a millisecond, where other stretchers smear them by tens.
            await using var process = Ffmpeg.Required("Slowing the recording down").Start(
                ["-y", "-i", Ffmpeg.FileArgument(path), "-map", "0:a:0", "-af", string.Create(CultureInfo.InvariantCulture, $"rubberband=tempo={speed}"), stretched],
                $"Slowing the recording down, by way of {Path.GetTempPath()},", ct);
            await process.FinishAsync();
            return await RecordingReader.ReadAsync(await RecordingReader.InspectAsync(stretched, ct), Rate, mono: false, null, ct);
        }
        finally
        {
            File.Delete(stretched);
        }
    }
}
