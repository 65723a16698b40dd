using System.Globalization;
using Harkbook.Units;

namespace Harkbook.Audio.Recordings.Conversion;

/// <summary>
/// Moves a recording's pitch through ffmpeg; its times stay (onsets within 12 ms, for a fifth up or down). Works on all channels
/// together, so that a stereo picture stays where it is.
/// </summary>
public static class PitchShift
{
    /// <param name="path">A FLAC file to write.</param>
    /// <exception cref="FfmpegException">ffmpeg is missing or failed.</exception>
    public static async Task WriteAsync(string recording, Cents by, string path, CancellationToken ct)
    {
        const string Purpose = "Moving the recording's pitch";
        var ratio = Math.Pow(2, by.Value / 1200).ToString("0.########", CultureInfo.InvariantCulture);
        await using var process = Ffmpeg.Required(Purpose).Start(
            ["-y", "-i", Ffmpeg.FileArgument(recording), "-map", "0:a:0", "-map_metadata", "-1", "-af", $"rubberband=pitch={ratio}:channels=together", "-c:a",
                "flac", "-f", "flac", Ffmpeg.FileArgument(path)],
            Purpose, ct);
        await process.FinishAsync();
    }
}
