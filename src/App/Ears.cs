using Harkbook.Audio.Recordings;
using Harkbook.Listening;

namespace Harkbook.App;

/// <summary>Listens to a recording, or remembers having done so.</summary>
internal static class Ears
{
    public static async Task<Hearing> HearAsync(string path, bool afresh, CancellationToken ct)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        if (!afresh && HearingStore.Default.Find(recording) is { } known)
            return known;
        var progress = new StepProgress(Path.GetFileName(path));
        var hearing = await Task.Run(() => new Listener().ListenAsync(recording, progress, ct), ct);
        progress.Done();
        HearingStore.Default.Keep(hearing);
        return hearing;
    }
}
