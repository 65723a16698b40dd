using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Notes from MIDI 36 to 96 without a large network: harmonic templates explain the spectra (see <see cref="NoteSalience"/>),
/// a small classifier weighs what they found, peaks become notes. In its place in the family of methods:
/// P. Smaragdis and J. C. Brown, "Non-negative matrix factorization for polyphonic music transcription", WASPAA 2003.
/// </summary>
public sealed class TemplateNoteEstimator(NotePickOptions? options = null)
{
    private readonly NotePicker picker = new(options);

    public NoteEstimate Estimate(ISound mono, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        var spectrum = LogSpectrum.Of(mono.ToMono().At(LogSpectrum.Rate), a4, new Part(progress, 0, 0.4), ct);
        var salience = NoteSalience.Of(spectrum, a4, ct);
        progress?.Report(0.8);
        var features = new NoteFeatures(spectrum, salience);
        var evidence = Weigh(features, ct);
        progress?.Report(1);
        return new(picker.Pick(evidence), evidence);
    }

    private static NotePosteriorgram Weigh(NoteFeatures features, CancellationToken ct)
    {
        var sounding = new PosteriorMatrix(features.Frames, HarmonicTemplates.Pitches);
        var onset = new PosteriorMatrix(features.Frames, HarmonicTemplates.Pitches);
        var level = new LevelMatrix(features.Frames, HarmonicTemplates.Pitches);
        Parallel.For(0, features.Frames, new ParallelOptions { CancellationToken = ct }, f =>
        {
            Span<float> values = stackalloc float[NoteFeatures.Count];
            for (var p = 0; p < HarmonicTemplates.Pitches; p++)
            {
                if (!features.IsPresent(f, p))
                    continue;
                features.Fill(f, p, values);
                level[f, p] = (float)features.Strength(f, p);
                (onset[f, p], sounding[f, p]) = NoteClassifier.Weigh(values);
            }
        });
        return new(LogSpectrum.Hop, HarmonicTemplates.LowestMidi, sounding, onset, level: level);
    }

    private sealed class Part(IProgress<double>? whole, double from, double to) : IProgress<double>
    {
        public void Report(double value) => whole?.Report(from + value * (to - from));
    }
}
