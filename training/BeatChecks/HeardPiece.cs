using System.Collections.Immutable;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Listening;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Interchange;

namespace Harkbook.Training.BeatChecks;

/// <summary>
/// What is heard of one recording before beats are decided, and its true beats. It is kept beside the recording, since listening takes longer than all
/// else: in NAME.evidence by `bench -- evidence`, else in NAME.heard.
/// </summary>
internal sealed record HeardPiece(string Name, PulseSound Sound, ImmutableArray<HeardNote> Notes, ImmutableArray<AnnotatedBeat> Truth)
{
    /// <summary>The beat network's weights, to compare others with those that ship; null for what was kept.</summary>
    public static string? Weights { get; set; }

    /// <param name="wave">A recording, with its truth in NAME.jams beside it; the recording itself may be gone once it was heard.</param>
    public static async Task<HeardPiece> OfAsync(string wave)
    {
        var kept = Path.ChangeExtension(wave, ".evidence");
        var (sound, notes) = File.Exists(kept) ? OfEvidence(kept) : await HeardAsync(wave);
        if (Weights is not null)
        {
            using var network = new PulseNetwork(File.ReadAllBytes(Weights));
            sound = sound with { Curves = network.Weigh(sound.Bands, default).Rounded() };
        }
        return new(Path.GetFileNameWithoutExtension(wave), sound, notes, JamsReader.Read(Path.ChangeExtension(wave, ".jams")).Beats);
    }

    /// <summary>Writes evidence as the beat network that ships hears its bands.</summary>
    public static void Renew(string kept, string into)
    {
        var evidence = EvidenceFile.Read(kept);
        using var network = PulseNetwork.Shipped();
        EvidenceFile.Write(evidence with { Pulse = evidence.Pulse with { Curves = network.Weigh(evidence.Pulse.Bands, default).Rounded() } }, into);
    }

    private static (PulseSound Sound, ImmutableArray<HeardNote> Notes) OfEvidence(string kept)
    {
        var evidence = EvidenceFile.Read(kept);
        return (evidence.Pulse, new NotePicker(evidence.Picking).Pick(evidence.Notes));
    }

    private static async Task<(PulseSound Sound, ImmutableArray<HeardNote> Notes)> HeardAsync(string wave)
    {
        var kept = Path.ChangeExtension(wave, ".heard");
        if (!File.Exists(kept))
        {
            var recording = await RecordingReader.InspectAsync(wave, default);
            var mono = await RecordingReader.ReadAsync(recording, PulseBands.Rate, mono: true, progress: null, default);
            var notes = NoteScan.NotesOf(mono, new ReferencePitchEstimator().Estimate(mono, default).Best, default).Notes;
            HeardFile.Write(kept, new BeatEstimator().Hear(mono, default), notes);
        }
        return HeardFile.Read(kept);
    }
}
