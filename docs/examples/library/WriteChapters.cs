using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Examples;

/// <summary>Writes a song's sections as chapter lines for a video's description, and as a WebVTT file beside the song.</summary>
public static class WriteChapters
{
    public static void Run(string songPath, double secondsOfRecording, TextWriter output)
    {
        var document = SongText.Parse(File.ReadAllText(songPath), songPath);
        var song = document.Song ?? throw new FormatException(string.Join("\n", document.Diagnostics));

        var timeline = new LessonTimeline(song);
        output.Write(Chapters.Lines(timeline, secondsOfRecording));
        File.WriteAllText(Path.ChangeExtension(songPath, ".vtt"), Chapters.WebVtt(timeline, secondsOfRecording));
    }
}
