using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Recordings.Reading;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Estimators.Stiffness;
using Harkbook.Listening.Evidence;
using Harkbook.Listening.Reading;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>Listens to a recording: gathers the evidence of its sound, and reads it.</summary>
public sealed class Listener
{
    /// <summary>All estimators work on one channel at this rate: harmonics up to 11 kHz, half the work of 44.1 kHz.</summary>
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>Whether to do without trained weights where rules can stand in for them: the yardstick for the networks.</summary>
    public bool Classical { get; init; }

    /// <summary>The part of the recording that is listened to; null for all of it.</summary>
    public SoundPart? On { get; init; }

    /// <summary>What a person has decided.</summary>
    public Claims Claims { get; init; } = Claims.None;

    /// <exception cref="RecordingException">The recording can't be read or holds nothing to listen to.</exception>
    public async Task<Hearing> ListenAsync(Recording recording, IProgress<Progress>? progress, CancellationToken ct)
    {
        var evidence = await GatherAsync(recording, progress, ct);
        progress?.Report(new("reading beats, chords, sections and strings", 0.9));
        var hearing = Reader.Read(recording, evidence, Claims, ct);
        progress?.Report(new("done", 1));
        return hearing;
    }

    /// <summary>The first half of the work: all that the sound says, without any decision.</summary>
    /// <exception cref="RecordingException">The recording can't be read or holds nothing to listen to.</exception>
    public async Task<SoundEvidence> GatherAsync(Recording recording, IProgress<Progress>? progress, CancellationToken ct)
    {
        progress?.Report(new("reading the recording", 0));
        using var whole = await RecordingReader.StoreAsync(recording, Rate, progress: null, ct);
        using var part = On?.Stored(whole, ct);
        ISound sound = part ?? whole;
        var mono = sound.ToMono();

        progress?.Report(new("finding the reference pitch", 0.05));
        var pitch = new ReferencePitchEstimator().Estimate(mono, ct);
        var about = Claims.ReferencePitch ?? pitch.Best;

        progress?.Report(new("following the beat", 0.1));
        var pulse = new BeatEstimator().Hear(mono, ct);

        progress?.Report(new("hearing notes and lines", 0.2));
        var evidence = Hear(sound, about, Progress.Within(progress, "hearing notes and lines", 0.2, 0.85), ct);

        progress?.Report(new("measuring strings", 0.85));
        var stiffness = StiffnessScan.Of(mono, new NotePicker(evidence.Picking).Pick(evidence.Notes), about, ct);

        progress?.Report(new("hearing harmony and colour", 0.87));
        return evidence with
        {
            ReferencePitch = pitch, HeardAbout = about, Pulse = pulse, Stiffness = stiffness, Colour = ColourScan.Of(mono, about, ct), IsClassical = Classical,
        };
    }

    /// <summary>Notes, and what may be a second instrument's, heard in one pass.</summary>
    private SoundEvidence Hear(ISound sound, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var lines = new LineScan();
        if (Classical)
        {
            SpectraScan.Run(sound, a4, [lines], null, ct);
            return new() { Notes = new TemplateNoteEstimator().Estimate(sound.ToMono(), a4, progress, ct).Evidence, Lines = lines.Cells };
        }
        using var notes = new NoteScan();
        SpectraScan.Run(sound, a4, [notes, lines], progress, ct);
        return new() { Notes = notes.Posteriorgram(), Picking = notes.Picking, Lines = lines.Cells };
    }
}
