using System.CommandLine;
using System.Globalization;
using System.Text;
using Harkbook.Audio.Recordings;
using Harkbook.Listening.Sounding;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;

namespace Harkbook.App.Commands;

internal static class ExerciseCommand
{
    private const double ChartWidth = 511;

    public static Command Create()
    {
        var song = Arguments.Song();
        var passage = new PassageOptions("to practise");
        var speeds = new Option<string>("--speeds") { Description = "Percents of the song's tempo, in order", HelpName = "PERCENTS", DefaultValueFactory = _ => "60,75,90,100" };
        var rounds = new Option<int>("--rounds") { Description = "How often the bars are played at each speed", HelpName = "TIMES", DefaultValueFactory = _ => 4 };
        var into = new Option<string?>("--into") { Description = "Where the files go; without it, a folder 'exercise' beside the song", HelpName = "FOLDER" };
        var command = new Command("exercise", "Practise singing over the strokes: both lines drawn on one count, and sounded slow to fast") { song, passage.Section, passage.Bars, speeds, rounds, into };
        command.SetAction(async (parsed, ct) =>
        {
            var paces = ReadSpeeds(parsed.GetRequiredValue(speeds));
            if (parsed.GetValue(rounds) is < 1 or > 16)
                throw new UsageException($"--rounds {parsed.GetValue(rounds)}: give 1 to 16.");
            var opened = SongFolder.Open(parsed.GetRequiredValue(song));
            var (first, last) = Sung(opened, passage.Read(parsed, opened.Song));
            var folder = parsed.GetValue(into) ?? Path.Combine(opened.Folder, "exercise");
            using var place = OutputPlace.ForFolder(folder, "--into");
            var options = new ExerciseOptions { FirstBar = first, LastBar = last, Speeds = [.. paces.Select(p => p / 100)], Rounds = parsed.GetValue(rounds) };
            var progress = new StepProgress(opened.Name);
            var (sound, stages) = await Task.Run(() => CoordinationExercise.Render(opened.Song, options, progress, ct), ct);
            progress.Done();
            await AuditionCommand.WriteAsync(Path.Combine(folder, "exercise.wav"), sound, ct);
            WriteCharts(opened.Song, first, last, folder);
            Report(folder, first, last, stages);
            return 0;
        });
        return command;
    }

    /// <summary>The bars asked for, which must be sung; else the first section that is.</summary>
    private static (int First, int Last) Sung(SongFolder opened, (int First, int Last)? asked)
    {
        var (first, last) = asked ?? FirstSung(opened);
        return opened.Song.Bars.Any(b => b.Number >= first && b.Number <= last && !b.Sung.IsEmpty)
            ? (first, last)
            : throw new UserException($"{opened.SongPath}: no syllable starts in bars {first} to {last}, so there are no two lines to practise. Choose sung bars, or add a 'sung' line to them.");
    }

    private static (int First, int Last) FirstSung(SongFolder opened) =>
        opened.Song.Sections.FirstOrDefault(s => s.Bars.Any(b => !b.Sung.IsEmpty)) is { } section
            ? (section.Bars[0].Number, section.Bars[^1].Number)
            : throw new UserException($"{opened.SongPath}: nothing is sung in this song. Add a 'sung' line to a section, x for each syllable where only the rhythm is known.");

    private static double[] ReadSpeeds(string text)
    {
        var speeds = text.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries).Select(t => double.TryParse(t, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var s) ? s : 0).ToArray();
        return speeds.Length is >= 1 and <= 8 && speeds.All(s => s is >= 25 and <= 150)
            ? speeds
            : throw new UsageException($"--speeds {text}: give one to eight percents from 25 to 150, as in 60,75,90,100.");
    }

    private static void WriteCharts(Song song, int first, int last, string folder)
    {
        Bar[] bars = [.. song.Bars.Skip(first - 1).Take(last - first + 1)];
        var chart = CoordinationChart.Engrave(bars, ChartWidth);
        var pages = CoordinationChart.Pages(song, bars, PaperSize.A4);
        AtomicFile.Write(Path.Combine(folder, "exercise.svg"), s => s.Write(Encoding.UTF8.GetBytes(SvgWriter.Write(chart, Palette.Paper, SvgText.Outlines))));
        AtomicFile.Write(Path.Combine(folder, "exercise.pdf"), s => PdfWriter.Write(pages, s, Palette.Paper, $"{song.Title}, {chart.Title}", DateTime.UtcNow.Date));
        AtomicFile.Write(Path.Combine(folder, "exercise.png"), s => PngWriter.Write(chart, s, Palette.Paper, 3));
    }

    private static void Report(string folder, int first, int last, IEnumerable<ExerciseStage> stages)
    {
        foreach (var stage in stages)
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{ClockText.Of(stage.At)}  {stage.Speed * 100:0}%, {stage.Tempo:0} beats a minute"));
        Console.Out.WriteLine($"{Path.Combine(folder, "exercise.wav")}: bars {first} to {last}, about -18 LUFS; start with the volume low. Take breaks, and stop when a hand or the voice hurts.");
        Console.Out.WriteLine($"{Path.Combine(folder, "exercise.pdf")}: both lines on one count; also as .svg and .png.");
    }
}
