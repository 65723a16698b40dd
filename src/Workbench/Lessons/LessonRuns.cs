using System.Collections.Concurrent;
using Harkbook.Workbench.Desk;

namespace Harkbook.Workbench.Lessons;

/// <summary>The last publishing of each song that lies open; one at a time for a song.</summary>
public sealed class LessonRuns(TimeProvider clock)
{
    private readonly ConcurrentDictionary<SongDesk, LessonRun> runs = new();

    public LessonRun? Of(SongDesk desk) => runs.GetValueOrDefault(desk);

    public LessonRun Begin(SongDesk desk, bool withVideo)
    {
        if (Of(desk) is { IsRunning: true } running)
            return running;
        var run = runs[desk] = new(desk);
        _ = Task.Run(() => run.RunAsync(withVideo, clock.GetUtcNow().UtcDateTime.Date));
        return run;
    }
}
