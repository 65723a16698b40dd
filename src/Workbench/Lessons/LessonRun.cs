using System.Collections.Immutable;
using Harkbook.Audio.Recordings;
using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using Harkbook.Publishing.Engraving;
using Harkbook.Publishing.Lessons;
using Harkbook.Units;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Lessons;

/// <summary>One publishing of a song, as it goes on.</summary>
public sealed class LessonRun(SongDesk desk) : IProgress<Progress>
{
    private readonly CancellationTokenSource stopping = new();

    public string Step { get; private set; } = "beginning";

    /// <summary>0 to 1.</summary>
    public double Done { get; private set; }

    public bool IsRunning { get; private set; } = true;

    /// <summary>What was made, each by its name in the lesson's folder.</summary>
    public ImmutableArray<(string Name, string What)> Files { get; private set; } = [];

    /// <summary>What to know: why it ended, what was left out.</summary>
    public ImmutableArray<string> Remarks { get; private set; } = [];

    public event Action? Changed;

    public void Stop() => stopping.Cancel();

    public void Report(Progress value)
    {
        (Step, Done) = (value.Step, value.Done);
        Changed?.Invoke();
    }

    public async Task RunAsync(bool withVideo, DateTime today)
    {
        try
        {
            var song = desk.Folder.RequireBars();
            var folder = Path.Combine(song.Folder, "lesson");
            var options = new PublishOptions(withVideo ? LessonParts.All : LessonParts.All & ~LessonParts.Video, PaperSize.A4, today);
            var files = await LessonMaking.MakeAsync(song, folder, options, 0, r => Remarks = Remarks.Add(r.Replace("harkbook: ", "")), this, stopping.Token);
            Files = [.. files.Select(f => (Path.GetRelativePath(folder, f.Path).Replace('\\', '/'), f.What))];
        }
        catch (OperationCanceledException)
        {
            Remarks = Remarks.Add("Stopped. What was finished before stays as it was.");
        }
        catch (Exception e) when (e is UserException or RecordingException or FfmpegException or UnwritableFileException or IOException)
        {
            Remarks = Remarks.Add(e.Message);
        }
        IsRunning = false;
        Changed?.Invoke();
    }
}
