using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;

namespace Harkbook.Publishing.Lessons;

/// <summary>A recording as a browser can play it inside a page: AAC where ffmpeg is there, else a WAV file as it is.</summary>
internal sealed record PageSound(byte[] Bytes, string MediaType, bool Kept)
{
    public static async Task<PageSound> ReadAsync(LessonSound sound, PieceStore store, CancellationToken ct)
    {
        if (Ffmpeg.Find() is not { } ffmpeg)
        {
            var path = await sound.PathAsync(ct);
            return sound.CutAt is null && Path.GetExtension(path).Equals(".wav", StringComparison.OrdinalIgnoreCase)
                ? new(await File.ReadAllBytesAsync(path, ct), "audio/wav", Kept: false)
                : throw new FfmpegException(
                    $"{path}: putting this sound into the play-along page needs ffmpeg, which is not installed; a whole WAV recording works without.");
        }
        using var work = new WorkFolder();
        var kept = await EncodedSound.WriteAsync(ffmpeg, sound, "128k", work.At("sound.m4a"), store,
            $"Putting the sound into the play-along page, by way of {work.Path},", ct);
        return new(await File.ReadAllBytesAsync(work.At("sound.m4a"), ct), "audio/mp4", kept);
    }
}
