using Harkbook.Audio.Recordings;

namespace Harkbook.Publishing.Lessons;

/// <summary>A recording as a browser can play it inside a page: AAC where ffmpeg is there, else a WAV file as it is.</summary>
internal static class PageSound
{
    public static async Task<(byte[] Bytes, string MediaType)> ReadAsync(string path, CancellationToken ct)
    {
        if (Ffmpeg.Find() is not { } ffmpeg)
        {
            return Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase)
                ? (await File.ReadAllBytesAsync(path, ct), "audio/wav")
                : throw new FfmpegException($"{path}: putting this sound into the play-along page needs ffmpeg, which is not installed; a WAV recording works without.");
        }
        var temporary = Path.Combine(Path.GetTempPath(), $"harkbook-{Guid.NewGuid():N}.m4a");
        try
        {
            await using var process = ffmpeg.Start(
                ["-y", "-i", Ffmpeg.FileArgument(path), "-map", "0:a:0", "-map_metadata", "-1", "-c:a", "aac", "-b:a", "128k", "-ac", "2", "-movflags", "+faststart", "-f", "ipod", temporary],
                $"Putting the sound into the play-along page, by way of {Path.GetTempPath()},", ct);
            await process.FinishAsync();
            return (await File.ReadAllBytesAsync(temporary, ct), "audio/mp4");
        }
        finally
        {
            File.Delete(temporary);
        }
    }
}
