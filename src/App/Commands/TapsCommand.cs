using Harkbook.Jobs.Files;
using System.CommandLine;
using System.Globalization;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Music.Analysis.Rhythm;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Units;

namespace Harkbook.App.Commands;

internal static class TapsCommand
{
    private const string FromInput = "-";

    public static Command Create()
    {
        var song = Arguments.Song();
        var times = new Argument<string?>("times")
        {
            Description = "A text file with a line for each tap: 0:12.402 The (a syllable), 0:12.402 |5 (the line of bar 5) or 0:12.402 |5.3 (its third beat); "
                + "- reads the lines from the input; without it, the page to tap on is made",
            Arity = ArgumentArity.ZeroOrOne,
        };
        var write = new Option<bool>("--write") { Description = "Put the sung lines or anchors into the song file; without it, what would change is shown" };
        var delay = new Option<int>("--delay")
        {
            Description = "Milliseconds that all taps are late by, taken off; the page measures them and takes them off itself",
            HelpName = "MILLISECONDS",
        };
        var to = new Option<string?>("--to") { Description = "Where the page goes; without it, taps.html beside the song", HelpName = "FILE" };
        var command = new Command("taps", "Make a page to tap syllables, beats or bar lines on, or lay tapped times on a song's bars") { song, times, write,
            delay, to };
        command.SetAction(async (parsed, ct) =>
        {
            var given = parsed.GetRequiredValue(song);
            if (parsed.GetValue(times) is { } name)
                await LayAsync(SongOpening.Open(given), name, parsed.GetValue(delay), parsed.GetValue(write), ct);
            else if (parsed.GetValue(write))
                throw new UsageException(
                    "--write: there are no times to write yet. Tap on the page, then give the file that it saves: harkbook taps SONG taps.txt --write");
            else
                await MakePageAsync(SongOpening.Open(given).RequireBars(), given, parsed.GetValue(to), ct);
            return 0;
        });
        return command;
    }

    private static async Task MakePageAsync(SongFolder opened, string given, string? to, CancellationToken ct)
    {
        var path = to ?? Path.Combine(opened.Folder, "taps.html");
        using var place = OutputPlace.ForFile(path, "--to");
        var recording = await RecordingReader.InspectAsync(opened.RequireRecording(), ct);
        opened.WarnOfAnother(recording);
        await TapsPage.WriteAsync(opened.Song, LessonSound.Of(recording), path, given, ct);
        Console.Out.WriteLine($"{Output.Shown(path)}  the page to tap on, one file, no network needed; open it in a browser. Start with the volume low.");
    }

    private static async Task LayAsync(SongFolder opened, string name, int delay, bool write, CancellationToken ct)
    {
        var tapped = Read(name).Without(Seconds.FromMilliseconds(delay));
        if (TappedBars.Problem(opened.Song, tapped.Beats) is { } problem && !tapped.Beats.IsEmpty)
            throw new UserException($"{name}: {problem}. Mend the line, or tap that stretch again.");
        var before = SongChange.DocumentOf(opened);
        var bars = tapped.Beats.IsEmpty ? null : TappedBars.Of(opened.Song, tapped.Beats);
        var tied = bars?.Onto(before) ?? before;
        // Words are laid on the bars as they are tied now; where that fails, the change says why.
        var sung = tied.Song is null || (tapped.Syllables.IsEmpty && bars is not null) ? null : TappedRhythm.Of(tied.Song, tapped.Syllables);
        if (sung is { Taps.IsEmpty: true })
            throw new UserException($"{name}: no time in it falls into the song's bars. Check that the times count from the recording's start, and the song's "
                + "anchors.");
        await SongChange.ShowAsync(before, sung?.Onto(tied) ?? tied, write, "taps --write", ct);
        Report(bars, sung);
    }

    private static TappedTimes Read(string name)
    {
        if (name != FromInput && !File.Exists(name))
            throw new UserException($"{name}: there is no such file. Check the name and the folder.");
        return TappedTimes.Read(name == FromInput ? Lines(Console.In) : File.ReadAllLines(name), out var wrong)
            ?? throw new UserException($"{name}, line {wrong}: expected a time and perhaps a syllable, as in '0:12.402 The' or '12.402', or behind the time a "
                + "bar line and a bar's number; docs/tour.md shows both.");
    }

    private static IEnumerable<string> Lines(TextReader reader)
    {
        while (reader.ReadLine() is { } line)
            yield return line;
    }

    private static void Report(TappedBars? bars, TappedRhythm? sung)
    {
        if (bars is not null)
            Say($"{Count(bars.Taps.Length, "beat")} from {bars.Taps[0]} to {bars.Taps[^1]} tied by {Count(bars.Anchors.Length, "anchor")}; a tap lies "
                + $"{bars.MeanOff.Value * 1000:0} ms from them on average. What all taps are late together can't be told from them: measure it on the page.");
        if (sung is not null)
            Say($"{Count(sung.Taps.Length, "syllable")}, {sung.Taps.Average(t => Math.Abs(t.Off.Value)) * 1000:0} ms from their places on "
                + $"average{Lateness(sung.Lateness.Value * 1000)}.");
    }

    private static string Lateness(double late) =>
        Math.Abs(late) < 1 ? "" : string.Create(CultureInfo.InvariantCulture,
            $", after taking off that all were {Math.Abs(late):0} ms {(late > 0 ? "late" : "early")}");

    private static string Count(int count, string what) => $"{count} {what}{(count == 1 ? "" : "s")}";

    private static void Say(string text) => Console.Error.WriteLine($"harkbook: {text}");
}
