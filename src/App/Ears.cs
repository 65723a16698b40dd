using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Listening;

namespace Harkbook.App;

/// <summary>Listens to a recording, or remembers having done so.</summary>
internal static class Ears
{
    /// <param name="on">Only this part of the recording; such a hearing isn't kept.</param>
    public static async Task<Hearing> HearAsync(string path, bool afresh, CancellationToken ct, SoundPart? on = null)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        RecordingPart.Require(on, recording);
        if (!afresh && on is null && HearingStore.Default.Find(recording) is { } known)
            return known;
        var progress = new StepProgress(Path.GetFileName(path));
        var hearing = await Task.Run(() => new Listener { On = on }.ListenAsync(recording, progress, ct), ct);
        progress.Done();
        if (on is null)
            HearingStore.Default.Keep(hearing);
        return hearing;
    }
}
