using Harkbook.App.Messages;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Reading;
using Harkbook.Units;

namespace Harkbook.App.Files;

/// <summary>Listens to a recording, or remembers having done so.</summary>
internal static class Ears
{
    /// <summary>So many cents from the measured A4 change no pitch.</summary>
    private const double Alike = 5;

    /// <param name="on">Only this part of the recording; such a hearing isn't kept.</param>
    /// <param name="classical">Without trained weights; not kept either.</param>
    /// <param name="about">The A4 that a person tells; null for the one that is measured.</param>
    public static async Task<Hearing> HearAsync(string path, bool afresh, CancellationToken ct, SoundPart? on = null, bool classical = false,
        Hertz? about = null)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        RecordingPart.Require(on, recording);
        var usual = on is null && !classical;
        if (!afresh && usual && Known(recording, about) is { } known)
            return known;
        var progress = new StepProgress(Path.GetFileName(path));
        var claims = Claims.None with { ReferencePitch = about };
        var hearing = await Task.Run(() => new Listener { On = on, Classical = classical, Claims = claims }.ListenAsync(recording, progress, ct), ct);
        progress.Done();
        if (usual)
            HearingStore.Default.Keep(hearing, about);
        return hearing;
    }

    /// <summary>What is kept: also the usual hearing where the told A4 is about the measured one.</summary>
    private static Hearing? Known(Recording recording, Hertz? about)
    {
        var usual = HearingStore.Default.Find(recording);
        return about is not { } told || (usual is not null && Math.Abs(Cents.Between(usual.Evidence.HeardAbout, told).Value) <= Alike)
            ? usual
            : HearingStore.Default.Find(recording, told);
    }
}
