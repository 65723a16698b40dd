using System.Net;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Publishing.Lessons.Timing;

namespace Harkbook.Publishing.Lessons;

/// <summary>
/// A page to tap on, as one HTML file that needs no network: it plays the record at any pace, takes a tap for each syllable, beat or bar
/// line, shows them among the song's bars, and gives their times in the record back.
/// </summary>
public static class TapsPage
{
    /// <param name="path">The page's file.</param>
    /// <param name="songName">How the song is named on the command line that takes the times.</param>
    public static async Task WriteAsync(Song song, LessonSound heard, string path, string songName, CancellationToken ct)
    {
        var sound = await PageSound.ReadAsync(heard, PieceStore.Default, ct);
        var page = Write(new(song), sound.Bytes, sound.MediaType, heard.Length.Value, songName, Path.ChangeExtension(Path.GetFileName(path), ".txt"));
        AtomicFile.Write(path, s => s.Write(Encoding.UTF8.GetBytes(page)));
    }

    /// <param name="sound">The sound file's bytes, which become part of the page.</param>
    /// <param name="mediaType">"audio/mp4" or "audio/wav".</param>
    /// <param name="length">The sound's length in seconds.</param>
    /// <param name="timesName">The name of the file that the page saves.</param>
    public static string Write(LessonTimeline timeline, byte[] sound, string mediaType, double length, string songName, string timesName) =>
        PageTemplate.Fill(PageTemplate.Part("taps/taps.html"), new Dictionary<string, string>
        {
            ["title"] = WebUtility.HtmlEncode(timeline.Song.Title),
            ["song"] = WebUtility.HtmlEncode(Quoted(songName)),
            ["file"] = WebUtility.HtmlEncode(Quoted(timesName)),
            ["words"] = WebUtility.HtmlEncode(Words(timeline.Song)),
            ["style"] = PageTemplate.Part("taps/taps.css"),
            ["script"] = PageTemplate.Part("taps/taps.js"),
            ["data"] = PageTemplate.Json(Data(timeline, length, timesName)),
            ["type"] = WebUtility.HtmlEncode(mediaType),
            ["sound"] = Convert.ToBase64String(sound),
        });

    private static object Data(LessonTimeline timeline, double length, string timesName) => new
    {
        timeline.Song.Title,
        File = timesName,
        Length = Math.Round(length, 3),
        Bars = timeline.Bars.Select((bar, i) => new
        {
            bar.Bar.Number,
            Section = timeline.Song.Sections[bar.SectionIndex].Name,
            First = i == 0 || timeline.Bars[i - 1].SectionIndex != bar.SectionIndex,
            Beats = bar.BeatTimes.Select(t => Math.Round(t, 3)),
        }),
    };

    /// <summary>The words that the song has, a line for each section; none where only rhythms are known.</summary>
    private static string Words(Song song) => string.Join('\n', song.Sections
        .Select(s => string.Join(' ', s.Bars.SelectMany(b => b.Sung).Select(c => c.Value)).Replace("- ", "-", StringComparison.Ordinal))
        .Where(line => line.Split(' ').Any(w => w is not ("" or "x"))));

    /// <summary>As it can stand on a command line.</summary>
    private static string Quoted(string name) =>
        name.Any(c => !char.IsLetterOrDigit(c) && c is not ('.' or '/' or '\\' or '-' or '_' or ':')) ? $"\"{name}\"" : name;
}
