using System.Collections.Immutable;
using Harkbook.Audio.Isolation;
using Harkbook.Audio.Recordings;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Listening.Estimators.Chords;
using Harkbook.Listening.Estimators.Form;
using Harkbook.Listening.Estimators.Fretting;
using Harkbook.Listening.Estimators.Keys;
using Harkbook.Listening.Estimators.Notes;
using Harkbook.Listening.Estimators.ReferencePitch;
using Harkbook.Listening.Estimators.SecondInstrument;
using Harkbook.Listening.Estimators.Tunings;
using Harkbook.Units;

namespace Harkbook.Listening;

/// <summary>Listens to a recording: runs every estimator, each on what the earlier ones found.</summary>
public sealed class Listener
{
    /// <summary>Names this build of the estimators (their assembly's deterministic identity), so that Hearings stored by another are made anew.</summary>
    public static string Version { get; } = typeof(Listener).Assembly.ManifestModule.ModuleVersionId.ToString("N")[..12];

    /// <summary>All estimators work on one channel at this rate: harmonics up to 11 kHz, half the work of 44.1 kHz.</summary>
    private static readonly SampleRate Rate = SampleRate.FromHertz(22_050);

    /// <summary>Whether to do without trained weights where rules can stand in for them: the yardstick for the networks.</summary>
    public bool Classical { get; init; }

    /// <summary>The part of the recording that is listened to; null for all of it.</summary>
    public SoundPart? On { get; init; }

    /// <exception cref="RecordingException">The recording can't be read or holds nothing to listen to.</exception>
    public async Task<Hearing> ListenAsync(Recording recording, IProgress<Progress>? progress, CancellationToken ct)
    {
        progress?.Report(new("reading the recording", 0));
        using var whole = await RecordingReader.StoreAsync(recording, Rate, progress: null, ct);
        using var part = On?.Stored(whole, ct);
        ISound sound = part ?? whole;
        var mono = sound.ToMono();

        Begin(progress, "finding the reference pitch", 0.05);
        var pitch = new ReferencePitchEstimator().Estimate(mono, ct);

        Begin(progress, "following the beat", 0.1);
        var pulse = new BeatEstimator().Estimate(mono, ct);

        Begin(progress, "hearing notes and lines", 0.25);
        var noteProgress = progress is null ? null : new Share(progress, "hearing notes and lines", 0.25, 0.85);
        var (notes, lines) = Classical ? HearByRules(sound, pitch.Best, noteProgress, ct) : Hear(sound, pitch.Best, noteProgress, ct);
        var beats = OffBeatCheck.Apply(pulse.Beats, notes.Notes);

        Begin(progress, "finding keys and chords", 0.85);
        var chordEstimator = Classical ? ChordEstimator.Classical() : ChordEstimator.Trained();
        var weighed = chordEstimator.Weigh(notes.Evidence, beats, ct);
        var keys = new KeyEstimator().Estimate(notes.Evidence, beats, chordEstimator.Estimate(weighed, []), weighed, recording.Length);
        var chords = chordEstimator.Estimate(weighed, keys);

        Begin(progress, "looking for a second instrument", 0.87);
        var found = LineEstimator.Of(lines, keys);

        Begin(progress, "finding sections, the tuning and the strings", 0.9);
        var sections = new FormEstimator().Estimate(mono, pitch.Best, beats, ct);
        var tuning = new TuningEstimator().Estimate(notes.Notes, keys[0].Key.Best, ct);
        var placed = new FrettingEstimator().Estimate(notes.Notes, tuning.Best, ct);
        progress?.Report(new("done", 1));

        return new Hearing
        {
            Recording = recording,
            ReferencePitch = pitch,
            Tempo = pulse.Tempo,
            Meter = pulse.Meter,
            Beats = beats,
            Keys = keys,
            Notes = placed,
            Evidence = notes.Evidence,
            Chords = chords,
            Sections = sections,
            Tuning = tuning,
            Lines = found,
        };
    }

    /// <summary>Notes, and what may be a second instrument's, heard in one pass.</summary>
    private static (NoteEstimate Notes, LineCell[][] Lines) Hear(ISound sound, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var notes = new NoteScan();
        using var lines = new LineScan();
        SpectraScan.Run(sound, a4, [notes, lines], progress, ct);
        return (notes.Notes(), lines.Cells);
    }

    private static (NoteEstimate Notes, LineCell[][] Lines) HearByRules(ISound sound, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        using var lines = new LineScan();
        SpectraScan.Run(sound, a4, [lines], null, ct);
        return (new TemplateNoteEstimator().Estimate(sound.ToMono(), a4, progress, ct), lines.Cells);
    }

    /// <summary>What the step before left behind is given back first: with memory to spare the collector would keep it, several times over.</summary>
    private static void Begin(IProgress<Progress>? progress, string step, double done)
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        progress?.Report(new(step, done));
    }

    private sealed class Share(IProgress<Progress> whole, string step, double from, double to) : IProgress<double>
    {
        public void Report(double value) => whole.Report(new(step, from + (to - from) * value));
    }
}
