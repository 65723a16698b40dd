using System.Globalization;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Publishing.Lessons.Timing;
using Harkbook.Publishing.Lessons.Video;

namespace Harkbook.Publishing.Lessons;

/// <summary>What a video was put together from.</summary>
/// <param name="Kept">How many of its pieces were kept from an earlier publishing.</param>
public readonly record struct VideoPiecesUsed(int Kept, int Count);

/// <summary>The play-along as an MP4: 1920 × 1080, 30 frames a second, H.264 and AAC, as long as its sound.</summary>
public static class PlayAlongVideo
{
    public const int FramesPerSecond = 30;

    private const string Purpose = "Making the play-along video";

    /// <param name="store">Where its pieces are kept; pieces whose frames would be the same are taken from there.</param>
    /// <exception cref="FfmpegException">ffmpeg is missing or failed.</exception>
    /// <exception cref="UnwritableFileException">The file can't be written.</exception>
    public static async Task<VideoPiecesUsed> WriteAsync(LessonTimeline timeline, LessonSound sound, string path, PieceStore store, IProgress<double>? progress,
        CancellationToken ct)
    {
        var ffmpeg = Ffmpeg.Required(Purpose);
        var used = default(VideoPiecesUsed);
        await AtomicFile.WriteByPathAsync(path, async (temporary, token) =>
        {
            using var work = new WorkFolder();
            var length = sound.Length.Value;
            var pieces = new VideoPieces(ffmpeg, new(timeline, length), Math.Max(1, (int)Math.Round(length * FramesPerSecond)), store, work);
            await EncodedSound.WriteAsync(ffmpeg, sound, "192k", work.At("sound.m4a"), store, Purpose, token);
            used = new(await pieces.MakeAsync(progress, token), pieces.Count);
            await JoinAsync(ffmpeg, work, pieces.Count, length, temporary, token);
        }, ct);
        return used;
    }

    /// <summary>Puts pieces and sound behind and beside one another as they are.</summary>
    private static async Task JoinAsync(Ffmpeg ffmpeg, WorkFolder work, int pieces, double length, string path, CancellationToken ct)
    {
        var list = new StringBuilder("ffconcat version 1.0\n");
        for (var piece = 0; piece < pieces; piece++)
            list.Append(CultureInfo.InvariantCulture, $"file {VideoPieces.Name(piece)}\n");
        await File.WriteAllTextAsync(work.At("pieces.ffconcat"), list.ToString(), ct);
        await using var joiner = ffmpeg.Start(
        [
            "-y", "-f", "concat", "-i", Ffmpeg.FileArgument(work.At("pieces.ffconcat")), "-i", Ffmpeg.FileArgument(work.At("sound.m4a")),
            "-map", "0:v", "-map", "1:a", "-map_metadata", "-1", "-c", "copy", "-t", length.ToString("0.######", CultureInfo.InvariantCulture),
            "-movflags", "+faststart", "-f", "mp4", Ffmpeg.FileArgument(path),
        ], Purpose, ct);
        await joiner.FinishAsync();
    }
}
