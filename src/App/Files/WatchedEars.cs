using Harkbook.App.Messages;
using Harkbook.Audio.Isolation;
using Harkbook.Jobs;
using Harkbook.Listening;
using Harkbook.Units;

namespace Harkbook.App.Files;

/// <summary>Listens to a recording while its progress is shown.</summary>
internal static class WatchedEars
{
    /// <inheritdoc cref="Ears.HearAsync"/>
    public static async Task<Hearing> HearAsync(string path, bool afresh, CancellationToken ct, SoundPart? on = null, bool classical = false,
        Hertz? about = null)
    {
        var progress = new StepProgress(Path.GetFileName(path));
        var hearing = await Ears.HearAsync(path, afresh, progress, ct, on, classical, about);
        progress.Done();
        return hearing;
    }
}
