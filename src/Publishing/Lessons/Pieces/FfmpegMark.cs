using Harkbook.Audio.Recordings.Conversion;

namespace Harkbook.Publishing.Lessons.Pieces;

/// <summary>What tells one ffmpeg from another: its version with those of its libraries and how it was built.</summary>
internal static class FfmpegMark
{
    public static async Task<string> OfAsync(Ffmpeg ffmpeg, CancellationToken ct)
    {
        await using var process = ffmpeg.Start(["-version"], "Asking ffmpeg for its version", ct);
        using var reader = new StreamReader(process.Output);
        var version = await reader.ReadToEndAsync(ct);
        await process.FinishAsync();
        return version;
    }
}
