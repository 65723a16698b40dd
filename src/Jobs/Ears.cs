using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Reading;
using Harkbook.Jobs.Files;
using Harkbook.Units;

namespace Harkbook.Jobs;

/// <summary>Listens to a recording, or remembers having done so.</summary>
public static class Ears
{
    /// <summary>So many cents from the measured A4 change no pitch.</summary>
    private const double Alike = 5;

    /// <param name="on">Only this part of the recording; such a hearing isn't kept.</param>
    /// <param name="classical">Without trained weights; not kept either.</param>
    /// <param name="about">The A4 that a person tells; null for the one that is measured.</param>
    public static async Task<Hearing> HearAsync(string path, bool afresh, IProgress<Progress>? progress, CancellationToken ct, SoundPart? on = null,
        bool classical = false, Hertz? about = null)
    {
        var recording = await RecordingReader.InspectAsync(path, ct);
        Require(on, recording);
        var usual = on is null && !classical;
        if (!afresh && usual && Known(recording, about) is { } known)
            return known;
        var claims = Claims.None with { ReferencePitch = about };
        var hearing = await Task.Run(() => new Listener { On = on, Classical = classical, Claims = claims }.ListenAsync(recording, progress, ct), ct);
        if (usual)
            HearingStore.Default.Keep(hearing, about);
        return hearing;
    }

    /// <summary>Refuses a part that needs two channels where there is one.</summary>
    public static void Require(SoundPart? part, Recording recording)
    {
        if (part is { NeedsTwoChannels: true } && recording.Channels < 2)
            throw new UserException($"{recording.Path}: has one channel, so there is no {part} in it. Take a part that needs no stereo: held, struck, rest or "
                + "band:LOW..HIGH.");
    }

    /// <summary>What is kept: also the usual hearing where the told A4 is about the measured one.</summary>
    public static Hearing? Known(Recording recording, Hertz? about = null)
    {
        var usual = HearingStore.Default.Find(recording);
        return about is not { } told || (usual is not null && Math.Abs(Cents.Between(usual.Evidence.HeardAbout, told).Value) <= Alike)
            ? usual
            : HearingStore.Default.Find(recording, told);
    }
}
