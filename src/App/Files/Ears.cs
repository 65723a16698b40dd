using Harkbook.App.Messages;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;

namespace Harkbook.App.Files;

/// <summary>Listens to a recording, or remembers having done so.</summary>
internal static class Ears
{
    /// <param name="on">Only this part of the recording; such a hearing isn't kept.</param>
    /// <param name="classical">Without trained weights; not kept either.</param>
    public static async Task<Hearing> HearAsync(string path, bool afresh, CancellationToken ct, SoundPart? on = null, bool classical = false)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        RecordingPart.Require(on, recording);
        var usual = on is null && !classical;
        if (!afresh && usual && HearingStore.Default.Find(recording) is { } known)
            return known;
        var progress = new StepProgress(Path.GetFileName(path));
        var hearing = await Task.Run(() => new Listener { On = on, Classical = classical }.ListenAsync(recording, progress, ct), ct);
        progress.Done();
        if (usual)
            HearingStore.Default.Keep(hearing);
        return hearing;
    }
}
