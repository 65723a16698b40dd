using System.Globalization;
using Harkbook.Audio.Recordings;
using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Lessons;

/// <summary>The play-along as an MP4: 1920 × 1080, 30 frames a second, H.264 and AAC, as long as its sound.</summary>
public static class PlayAlongVideo
{
    public const int FramesPerSecond = 30;

    /// <param name="soundPath">The recording, or an audition of the song.</param>
    /// <param name="soundLength">Its length in seconds.</param>
    /// <exception cref="FfmpegException">ffmpeg is missing or failed.</exception>
    /// <exception cref="UnwritableFileException">The file can't be written.</exception>
    public static Task WriteAsync(LessonTimeline timeline, string soundPath, double soundLength, string path, IProgress<double>? progress, CancellationToken ct)
    {
        var ffmpeg = Ffmpeg.Required("Making the play-along video");
        return AtomicFile.WriteByPathAsync(path, async (temporary, token) =>
        {
            await using var encoder = ffmpeg.Start(Arguments(soundPath, soundLength, temporary), "Making the play-along video", token);
            await SendFramesAsync(encoder, timeline, soundLength, progress, token);
            await encoder.FinishAsync();
        }, ct);
    }

    private static async Task SendFramesAsync(FfmpegProcess encoder, LessonTimeline timeline, double length, IProgress<double>? progress, CancellationToken ct)
    {
        using var painter = new FramePainter(timeline, length);
        var frames = (int)Math.Round(length * FramesPerSecond);
        // A frame shows the middle of its time, so that a change is at most half a frame from its sound.
        // One frame is painted while the one before it goes down the pipe.
        byte[][] buffers = [new byte[Screen.Width * Screen.Height * 4], new byte[Screen.Width * Screen.Height * 4]];
        var sending = ValueTask.CompletedTask;
        for (var frame = 0; frame < frames; frame++)
        {
            var buffer = buffers[frame % 2];
            painter.Paint((frame + 0.5) / FramesPerSecond).CopyTo(buffer);
            await sending;
            ct.ThrowIfCancellationRequested();
            sending = encoder.WriteAsync(buffer);
            if (frame % FramesPerSecond == 0)
                progress?.Report((double)frame / frames);
        }
        await sending;
    }

    private static string[] Arguments(string soundPath, double length, string path) =>
    [
        "-y", "-f", "rawvideo", "-pixel_format", "rgba", "-video_size", $"{Screen.Width}x{Screen.Height}",
        "-framerate", FramesPerSecond.ToString(CultureInfo.InvariantCulture), "-i", "pipe:0",
        "-i", Ffmpeg.FileArgument(soundPath),
        "-map", "0:v", "-map", "1:a:0", "-map_metadata", "-1",
        "-c:v", "libx264", "-preset", "veryfast", "-tune", "animation", "-crf", "20", "-profile:v", "high", "-level", "4.0",
        "-pix_fmt", "yuv420p", "-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709",
        "-vf", "scale=out_color_matrix=bt709:out_range=tv",
        "-c:a", "aac", "-b:a", "192k", "-ac", "2",
        "-t", length.ToString("0.######", CultureInfo.InvariantCulture), "-movflags", "+faststart", "-f", "mp4", path,
    ];
}
