using Harkbook.Audio.Recordings;
using Harkbook.Jobs;
using Harkbook.Jobs.Files;
using Harkbook.Listening;
using Harkbook.Units;

namespace Harkbook.Workbench.Books;

/// <summary>
/// A recording that was dropped on the shelf, on its way to a song: taken in, listened to, proposed. It can be stopped; nothing is left then.
/// </summary>
public sealed class Intake
{
    private readonly CancellationTokenSource stopping = new();
    private readonly string recording;
    private readonly string folder;
    private readonly string root;

    /// <param name="root">The songbook's folder.</param>
    /// <param name="recording">The file, in a folder of its own in the songbook.</param>
    public Intake(string root, string recording)
    {
        (this.root, this.recording, folder) = (root, recording, Path.GetDirectoryName(recording)!);
        Name = Path.GetFileName(recording);
    }

    public string Name { get; }

    public string Step { get; private set; } = "waiting";

    /// <summary>0 to 1.</summary>
    public double Done { get; private set; }

    /// <summary>The song that came of it; null before that.</summary>
    public string? Song { get; private set; }

    /// <summary>Why nothing came of it; null where that isn't so.</summary>
    public string? Trouble { get; private set; }

    public bool IsRunning => Song is null && Trouble is null;

    public event Action? Changed;

    public void Stop() => stopping.Cancel();

    public async Task RunAsync()
    {
        try
        {
            var beginning = new SongBeginning(folder, SongBeginning.TitleOf(recording), Bring: true);
            var heard = await Ears.HearAsync(recording, afresh: false, new Told(this), stopping.Token);
            Tell("proposing the song", 0.97);
            await beginning.WriteAsync(recording, heard, Claims.None, stopping.Token);
            (Song, Done) = (ShelfSong.IdOf(root, beginning.SongPath), 1);
        }
        catch (Exception e) when (e is OperationCanceledException or RecordingException or UserException or IOException or UnauthorizedAccessException)
        {
            Trouble = e is OperationCanceledException ? "stopped; nothing was kept" : e.Message;
            Directory.Delete(folder, recursive: true);
        }
        Changed?.Invoke();
    }

    private void Tell(string step, double done)
    {
        (Step, Done) = (step, done);
        Changed?.Invoke();
    }

    private sealed class Told(Intake intake) : IProgress<Progress>
    {
        public void Report(Progress value) => intake.Tell(value.Step, value.Done * 0.97);
    }
}
