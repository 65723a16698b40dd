using System.Text.RegularExpressions;
using Harkbook.Audio.Recordings.Formats;
using Harkbook.Bench.Planted;
using Harkbook.Music.Songs;
using Harkbook.Sounding;

namespace Harkbook.Bench.Browsing;

/// <summary>A composed song in every part, its sections over and over for ten minutes and more, with a recording of it by our own strings.</summary>
internal static partial class LongSong
{
    private const double Seconds = 600;
    private const int Seed = 401;

    /// <summary>Writes the long song and short ones, each in a folder of its own.</summary>
    public static void Write(string book, int others)
    {
        var composed = new SongComposer(Seed).Write("take.wav", 440);
        var rounds = (int)Math.Ceiling(Seconds / SecondsOf(composed));
        Write(Path.Combine(book, "long"), Named(Again(composed, rounds), "Ten Minutes"));
        for (var i = 1; i <= others; i++)
            Write(Path.Combine(book, $"short-{i}"), Named(composed, $"Short {i}"));
    }

    private static void Write(string folder, string text)
    {
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "song.hark"), text);
        WaveFile.Write(Path.Combine(folder, "take.wav"), Audition.Render(Parsed(text), new(), CancellationToken.None));
    }

    private static Song Parsed(string text) => SongText.Parse(text, "song.hark").Song!;

    private static double SecondsOf(string text)
    {
        var song = Parsed(text);
        return new SongClock(song).TimeOf(song.Bars.Count() + 1).Value;
    }

    private static string Named(string text, string title) => Title().Replace(text, $"title {title}", 1);

    private static string Again(string text, int rounds)
    {
        var body = text.IndexOf("\nsection", StringComparison.Ordinal);
        return text[..body] + string.Concat(Enumerable.Range(1, rounds).Select(r => Section().Replace(text[body..], m => $"{m.Value} round {r}")));
    }

    [GeneratedRegex("^title .*$", RegexOptions.Multiline)]
    private static partial Regex Title();

    [GeneratedRegex("(?<=^section .*)(Intro|Verse [12]|Chorus [12]|Ending)", RegexOptions.Multiline)]
    private static partial Regex Section();
}
