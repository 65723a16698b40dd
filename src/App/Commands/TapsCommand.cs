using System.CommandLine;
using System.Globalization;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Music.Songs;

namespace Harkbook.App.Commands;

internal static class TapsCommand
{
    private const string FromInput = "-";

    public static Command Create()
    {
        var song = Arguments.Song();
        var times = new Argument<string>("times") { Description = "A text file with a line for each syllable, its time in the recording and perhaps the syllable: 0:12.402 The; - reads the lines from the input" };
        var command = new Command("taps", "Lay tapped syllables on a song's bars and print its sung lines") { song, times };
        command.SetAction(parsed =>
        {
            var opened = SongFolder.Open(parsed.GetRequiredValue(song));
            var name = parsed.GetRequiredValue(times);
            var tapped = TappedRhythm.Of(opened.Song, Read(name));
            if (tapped.Taps.IsEmpty)
                throw new UserException($"{name}: no time in it falls into the song's bars. Check that the times count from the recording's start, and the song's anchors.");
            Console.Out.Write(SungLines(tapped.Onto(opened.Song), tapped));
            Console.Error.WriteLine(Report(tapped));
            return 0;
        });
        return command;
    }

    private static IEnumerable<Tap> Read(string name)
    {
        if (name != FromInput && !File.Exists(name))
            throw new UserException($"{name}: there is no such file. Check the name and the folder.");
        var lines = name == FromInput ? Lines(Console.In) : File.ReadAllLines(name);
        foreach (var (line, index) in lines.Select((l, i) => (l.Trim(), i)).Where(l => l.Item1.Length > 0))
            yield return Tap.Read(line) ?? throw new UserException($"{name}, line {index + 1}: expected a time and perhaps a syllable, as in '0:12.402 The' or '12.402'.");
    }

    private static IEnumerable<string> Lines(TextReader reader)
    {
        while (reader.ReadLine() is { } line)
            yield return line;
    }

    /// <summary>The sections that were tapped, with nothing but their sung lines, as a song file writes them.</summary>
    private static string SungLines(Song song, TappedRhythm tapped)
    {
        var sections = song.Sections.Where(s => s.Bars.Any(b => tapped.Taps.Any(t => t.Bar == b.Number)))
            .Select(s => s with { Anchors = [], Keys = [], Bars = [.. s.Bars.Select(b => b with { Chords = [], Strums = [], Picked = [], Harp = [] })] });
        var text = SongText.Write(song with { Shapes = [], Sections = [.. sections] });
        return text[text.IndexOf("section ", StringComparison.Ordinal)..];
    }

    private static string Report(TappedRhythm tapped)
    {
        var off = tapped.Taps.Average(t => Math.Abs(t.Off.Value)) * 1000;
        var late = tapped.Lateness.Value * 1000;
        return string.Create(CultureInfo.InvariantCulture,
            $"harkbook: {tapped.Taps.Length} syllables, {off:0} ms from their places on average{(Math.Abs(late) >= 1 ? $", after taking off that all were {Math.Abs(late):0} ms {(late > 0 ? "late" : "early")}" : "")}. Look at the lines before you put them into the song.");
    }
}
