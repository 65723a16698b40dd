using System.Globalization;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Units;

namespace Harkbook.Publishing.Lessons.Pieces;

/// <summary>A lesson's sound as AAC in an MP4 container, taken from the store or made.</summary>
internal static class EncodedSound
{
    /// <param name="rate">As ffmpeg writes it: "128k".</param>
    /// <returns>Whether it was kept from an earlier publishing.</returns>
    public static async Task<bool> WriteAsync(Ffmpeg ffmpeg, LessonSound sound, string rate, string path, PieceStore store, string purpose,
        CancellationToken ct)
    {
        using var key = new PieceKey("sound");
        var name = key.With(sound.Identity, await FfmpegMark.OfAsync(ffmpeg, ct)).With(Arguments("", sound, rate, "")).Finish();
        if (store.TryTake(name, path))
            return true;
        await using var process = ffmpeg.Start(Arguments(Ffmpeg.FileArgument(await sound.PathAsync(ct)), sound, rate, Ffmpeg.FileArgument(path)), purpose, ct);
        await process.FinishAsync();
        store.Keep(name, path);
        return false;
    }

    private static string[] Arguments(string from, LessonSound sound, string rate, string to) =>
        ["-y", .. sound.CutAt is { } at ? ["-ss", Text(at), "-t", Text(sound.Length)]
            : Array.Empty<string>(), "-i", from, "-map", "0:a:0", "-map_metadata", "-1", "-c:a", "aac", "-b:a", rate, "-ac", "2", "-movflags", "+faststart",
            "-f", "ipod", to];

    private static string Text(Seconds time) => time.Value.ToString("0.######", CultureInfo.InvariantCulture);
}
