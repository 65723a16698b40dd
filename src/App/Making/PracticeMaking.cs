using Harkbook.Jobs.Files;
using System.Globalization;
using System.Text;
using Harkbook.App.Choices;
using Harkbook.App.Files;
using Harkbook.App.Messages;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Conversion;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening;
using Harkbook.Music.Analysis.Practice;
using Harkbook.Music.Songs;
using Harkbook.Publishing.Drawings;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Engraving.Sheets;
using Harkbook.Publishing.Lessons;
using Harkbook.Publishing.Lessons.Pieces;
using Harkbook.Publishing.Lessons.Sounds;
using Harkbook.Sounding;
using Harkbook.Units;

namespace Harkbook.App.Making;

/// <summary>What is made of a practice, besides its chart.</summary>
internal readonly record struct PracticeForm(bool Click, bool Record, bool Video);

/// <summary>Makes the files of a practice.</summary>
internal sealed class PracticeMaking(SongFolder opened, Practised practised, PracticeOptions options, string folder)
{
    private const double ChartWidth = 511;

    public async Task MakeAsync(PracticeForm form, CancellationToken ct)
    {
        if (form.Video)
            Ffmpeg.Required("Making the video of an exercise");
        var plan = PracticePlan.Of(practised.Song, options);
        var passages = form.Record ? await PassagesAsync(ct) : [];
        using var place = OutputPlace.ForFolder(folder, "--into");
        var steps = new StepProgress(opened.Name);
        steps.Report(new("sounding the exercise", 0));
        var sound = await Task.Run(() => form.Record ? PracticeSound.OfRecording(plan, passages, form.Click, ct)
            : PracticeSound.OfClaims(plan, form.Click, ct), ct);
        await SoundFile.WriteAsync(Path.Combine(folder, "exercise.wav"), sound, ct);
        WriteCharts(plan);
        if (form.Video)
            await FilmAsync(plan, steps, ct);
        steps.Done();
        Report(plan, form);
    }

    private async Task FilmAsync(PracticePlan plan, StepProgress steps, CancellationToken ct)
    {
        var sound = LessonSound.Of(await RecordingReader.InspectAsync(Path.Combine(folder, "exercise.wav"), ct));
        await PlayAlongVideo.WriteAsync(new(plan.Song, plan.BarNames), sound, Path.Combine(folder, "exercise.mp4"), PieceStore.Default,
            Progress.Within(steps, "filming the exercise", 0, 1), ct);
    }

    /// <summary>The practised bars of the recording at each speed.</summary>
    private async Task<IReadOnlyList<Signal>> PassagesAsync(CancellationToken ct)
    {
        var path = opened.RequireRecording();
        opened.WarnOfAnother(await RecordingReader.InspectAsync(path, ct));
        var clock = new SongClock(practised.Song);
        var span = (From: clock.TimeOf(options.FirstBar), To: clock.TimeOf(options.LastBar + 1));
        var passages = new List<Signal>();
        foreach (var speed in options.Speeds)
            passages.Add(await PartAudition.ReadPassageAsync(path, span.From, span.To, speed, ct));
        return passages;
    }

    private void WriteCharts(PracticePlan plan)
    {
        var chart = ExerciseSheet.Chart(practised.Song, practised.Bars, ChartWidth);
        var pages = ExerciseSheet.Pages(practised.Song, practised.Bars, plan.Stages, practised.What, PaperSize.A4);
        AtomicFile.Write(Path.Combine(folder, "exercise.svg"), s => s.Write(Encoding.UTF8.GetBytes(SvgWriter.Write(chart, Palette.Paper, SvgText.Outlines))));
        AtomicFile.Write(Path.Combine(folder, "exercise.pdf"),
            s => PdfWriter.Write(pages, s, Palette.Paper, $"{practised.Song.Title}, exercise", DateTime.UtcNow.Date));
        AtomicFile.Write(Path.Combine(folder, "exercise.png"), s => PngWriter.Write(chart, s, Palette.Paper, 3));
    }

    private void Report(PracticePlan plan, PracticeForm form)
    {
        foreach (var stage in plan.Stages)
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{ClockText.Of(stage.At)}  {stage.Speed * 100:0}%, {TempoText.Of(stage.Tempo)}"));
        var care = "about -18 LUFS; start with the volume low. Take breaks, and stop when a hand or the voice hurts.";
        Console.Out.WriteLine($"{Output.Shown(Path.Combine(folder, "exercise.wav"))}: {practised.What}; {care}");
        Console.Out.WriteLine($"{Output.Shown(Path.Combine(folder, "exercise.pdf"))}: the bars, with a box to tick for each round; the bars alone as .svg "
            + "and .png.");
        if (form.Video)
            Console.Out.WriteLine($"{Output.Shown(Path.Combine(folder, "exercise.mp4"))}: the same as a video.");
    }
}
