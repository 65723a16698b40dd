using Harkbook.Audio.Recordings;
using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using Harkbook.Listening;
using Harkbook.Listening.Checking;
using Harkbook.Units;

namespace Harkbook.Workbench.Desk;

/// <summary>
/// What the workbench does for an open song in the background: it listens where nothing is kept, reads the evidence again when something was decided, and
/// weighs every claim. One thing at a time; a new edit makes what was begun for the old text void.
/// </summary>
public sealed class DeskWork : IDisposable
{
    private readonly SongDesk desk;
    private readonly SemaphoreSlim wanted = new(0);
    private readonly CancellationTokenSource closing = new();
    private Checker? checker;
    private Hearing? reading;
    private volatile bool reads;

    public DeskWork(SongDesk desk)
    {
        this.desk = desk;
        desk.Edited += Want;
        wanted.Release();
        _ = Task.Run(RunAsync);
    }

    public void Dispose()
    {
        desk.Edited -= Want;
        closing.Cancel();
    }

    /// <summary>What was taken back, or written by another program, stays as it is.</summary>
    private void Want(ChangeKind kind)
    {
        reads |= kind == ChangeKind.Decided;
        wanted.Release();
    }

    private async Task RunAsync()
    {
        try
        {
            while (true)
            {
                await wanted.WaitAsync(closing.Token);
                while (wanted.CurrentCount > 0)
                    await wanted.WaitAsync(closing.Token);
                await WorkAsync();
            }
        }
        catch (OperationCanceledException)
        {
            // The workbench closes.
        }
    }

    private async Task WorkAsync()
    {
        try
        {
            if (checker is null && desk.Folder.RecordingPath is not null)
                await HearAsync();
            if (reads && reading is not null && desk.View.Mistakes.IsEmpty)
                await ReadAgainAsync();
            Check();
        }
        catch (Exception e) when (e is RecordingException or UserException or IOException or UnauthorizedAccessException)
        {
            desk.Tell(view => view with { Said = e.Message });
        }
        finally
        {
            desk.Tell(view => view with { Work = null });
        }
    }

    private async Task HearAsync()
    {
        desk.Tell(view => view with { Work = "looking up what was heard" });
        var heard = await Ears.HearAsync(desk.Folder.RequireRecording(), afresh: false, new Told(desk), closing.Token);
        (checker, reading) = (new(heard), heard);
        desk.Tell(view => view with { Heard = heard });
    }

    /// <summary>What still stands as heard follows what was decided.</summary>
    private async Task ReadAgainAsync()
    {
        desk.Tell(view => view with { Work = "reading again what hangs on it" });
        reads = false;
        var view = desk.View;
        var renewed = SongReheard.Of(view.Document, reading!, Claims.None, new(), out var again, closing.Token);
        reading = again;
        if (renewed.Document.Text != view.Document.Text)
            await desk.FollowAsync(view.Version, renewed.Document.Text);
    }

    private void Check()
    {
        var view = desk.View;
        if (!view.Mistakes.IsEmpty)
            return;
        desk.Tell(now => now with { Work = "weighing every claim" });
        var found = SongCheck.Of(view.Document, checker);
        desk.Tell(now => now.Version == view.Version ? now with { Found = found, Doubts = Doubt.Left(found, view.Song) } : now);
    }

    private sealed class Told(SongDesk desk) : IProgress<Progress>
    {
        private int percent = -1;

        public void Report(Progress value)
        {
            if ((int)(value.Done * 100) is var now && now != percent)
                desk.Tell(view => view with { Work = $"{value.Step}, {percent = now}%" });
        }
    }
}
