using System.Globalization;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Lessons.Pieces;
using SkiaSharp;

namespace Harkbook.Publishing.Lessons.Video;

/// <summary>
/// A video's pictures in pieces of four seconds, each coded by itself, so that a piece whose frames are drawn from the same as before
/// is taken from the store and all others are made side by side. One thread codes a piece: then the same frames give the same bytes on
/// every machine.
/// </summary>
internal sealed class VideoPieces(Ffmpeg ffmpeg, FramePlan plan, int frames, PieceStore store, WorkFolder work)
{
    private const string Purpose = "Making the play-along video";
    private const int FramesInPiece = 4 * PlayAlongVideo.FramesPerSecond;
    private const int MostAtOnce = 8;

    private int painted;

    /// <summary>How many pieces there are.</summary>
    public int Count => (frames + FramesInPiece - 1) / FramesInPiece;

    /// <summary>Puts every piece into the work folder.</summary>
    /// <returns>How many were kept from an earlier publishing.</returns>
    public async Task<int> MakeAsync(IProgress<double>? progress, CancellationToken ct)
    {
        var coder = await CoderAsync(ct);
        var keys = Enumerable.Range(0, Count).Select(piece => Key(piece, coder)).ToArray();
        var missing = Enumerable.Range(0, Count).Where(piece => !store.TryTake(keys[piece], work.At(Name(piece)))).ToArray();
        var toPaint = missing.Sum(piece => Frames(piece).Count());
        await Parallel.ForEachAsync(missing,
            new ParallelOptions { MaxDegreeOfParallelism = Math.Min(MostAtOnce, Environment.ProcessorCount), CancellationToken = ct }, async (piece, token) =>
        {
            await CodeAsync(Frames(piece), Name(piece), () => progress?.Report((double)Interlocked.Increment(ref painted) / toPaint), token);
            store.Keep(keys[piece], work.At(Name(piece)));
        });
        return Count - missing.Length;
    }

    public static string Name(int piece) => string.Create(CultureInfo.InvariantCulture, $"{piece:000000}.mp4");

    private IEnumerable<int> Frames(int piece) => Enumerable.Range(piece * FramesInPiece, Math.Min(FramesInPiece, frames - piece * FramesInPiece));

    /// <summary>A frame shows the middle of its time, so that a change is at most half a frame from its sound.</summary>
    private static double TimeOf(int frame) => (frame + 0.5) / PlayAlongVideo.FramesPerSecond;

    private async Task CodeAsync(IEnumerable<int> shown, string name, Action step, CancellationToken ct)
    {
        using var painter = new FramePainter(plan);
        await using var encoder = ffmpeg.Start([.. Arguments, Ffmpeg.FileArgument(work.At(name))], Purpose, ct);
        foreach (var frame in shown)
        {
            painter.Paint(TimeOf(frame));
            await encoder.WriteAsync(painter.Planes);
            step();
        }
        await encoder.FinishAsync();
    }

    private string Key(int piece, string coder)
    {
        using var key = new PieceKey("video").With([coder, .. Arguments]).WithProgram(typeof(FramePainter), typeof(SKCanvas), typeof(HarfBuzzSharp.Font));
        ScreenMoment? last = null;
        byte[] still = [];
        foreach (var time in Frames(piece).Select(TimeOf))
        {
            var moment = plan.MomentAt(time);
            if (moment != last)
                (last, still) = (moment, DrawingDigest.Of(plan.Still(moment)));
            key.With(still);
            foreach (var (box, tint, opacity) in plan.Moving(moment, time))
                key.With(box.Left, box.Top, box.Right, box.Bottom, (int)tint, opacity);
        }
        return key.Finish();
    }

    /// <summary>What tells one coder from another: the version of ffmpeg, and what it makes of a grey frame, in which the H.264 coder signs itself.</summary>
    private async Task<string> CoderAsync(CancellationToken ct)
    {
        const string Trial = "trial.mp4";
        await using (var encoder = ffmpeg.Start([.. Arguments, Ffmpeg.FileArgument(work.At(Trial))], Purpose, ct))
        {
            var grey = new byte[Screen.Width * Screen.Height * 3 / 2];
            grey.AsSpan().Fill(128);
            await encoder.WriteAsync(grey);
            await encoder.FinishAsync();
        }
        return await FfmpegMark.OfAsync(ffmpeg, ct) + Convert.ToHexStringLower(await File.ReadAllBytesAsync(work.At(Trial), ct));
    }

    private static string[] Arguments { get; } =
    [
        "-y", "-f", "rawvideo", "-pixel_format", "yuv420p", "-video_size", $"{Screen.Width}x{Screen.Height}",
        "-framerate", PlayAlongVideo.FramesPerSecond.ToString(CultureInfo.InvariantCulture), "-i", "pipe:0", "-map_metadata", "-1",
        "-c:v", "libx264", "-preset", "veryfast", "-tune", "animation", "-crf", "20", "-profile:v", "high", "-level", "4.0", "-threads", "1",
        "-pix_fmt", "yuv420p", "-color_range", "tv", "-colorspace", "bt709", "-color_primaries", "bt709", "-color_trc", "bt709", "-f", "mp4",
    ];
}
