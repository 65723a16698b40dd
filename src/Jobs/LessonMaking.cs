using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Jobs.Files;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Units;

namespace Harkbook.Jobs;

/// <summary>Publishes a song with its recording; one without is sounded for its play-alongs.</summary>
public static class LessonMaking
{
    /// <param name="shift">Semitones by which the recording is moved.</param>
    /// <param name="say">Who is told what is left out and why, and what to know of the recording.</param>
    public static async Task<IReadOnlyList<LessonFile>> MakeAsync(SongFolder opened, string folder, PublishOptions options, int shift, Action<string> say,
        IProgress<Progress>? progress, CancellationToken ct)
    {
        using var place = OutputPlace.ForFolder(folder, "--into");
        if (Ffmpeg.Find() is null && options.Parts.HasFlag(LessonParts.Video))
        {
            say("harkbook: ffmpeg is not installed, so no video is made; everything else is. Debian: sudo apt-get install ffmpeg; macOS: "
                + "brew install ffmpeg; Windows: winget install Gyan.FFmpeg.");
            options = options with { Parts = options.Parts & ~LessonParts.Video };
        }
        using var sound = await SongSound.OfAsync(opened, shift, options.Only, say, ct);
        return await Task.Run(() => new LessonPublisher(opened.Song, sound, folder, options, PieceStore.Default).PublishAsync(progress, ct), ct);
    }
}
