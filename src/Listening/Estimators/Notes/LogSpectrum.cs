using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// Magnitude spectra on a logarithmic frequency axis, three bins a semitone from MIDI <see cref="LowestMidi"/> up,
/// taken three times: through long windows, which part neighbouring pitches, short ones, which part moments, and middling ones.
/// A sinusoid of amplitude 1 at a bin's frequency gives 1.
/// The kernels are those of Brown and Puckette, "An efficient algorithm for the calculation of a constant Q transform",
/// JASA 92 (1992), with window lengths bounded on both sides.
/// </summary>
public sealed class LogSpectrum
{
    public const int Bins = 264;
    public const int BinsPerSemitone = 3;
    public const int LowestMidi = 34;
    public const int HopSamples = 256;

    private LogSpectrum(float[][] wide, float[][] middle, float[][] brief) => (Long, Middle, Short) = (wide, middle, brief);

    /// <summary>The rate that spectra are taken at.</summary>
    public static SampleRate Rate { get; } = SampleRate.FromHertz(22_050);

    public static Seconds Hop { get; } = Rate.TimeOf(HopSamples);

    /// <summary>Frames × bins, windows of 37 to 372 ms. Frame f is centred on f hops.</summary>
    public float[][] Long { get; }

    /// <summary>Frames × bins, windows of 23 to 93 ms.</summary>
    public float[][] Middle { get; }

    /// <summary>Frames × bins, windows of 12 to 46 ms.</summary>
    public float[][] Short { get; }

    /// <summary>Semitones above MIDI 0, as a fraction, of a bin's centre.</summary>
    public static double MidiOf(int bin) => LowestMidi + (bin - 1) / (double)BinsPerSemitone;

    /// <summary>The bin nearest to a place on the MIDI scale; it may lie beyond the last.</summary>
    public static int BinOf(double midi) => (int)Math.Round((midi - LowestMidi) * BinsPerSemitone) + 1;

    public static LogSpectrum Of(ISound mono, Hertz a4, IProgress<double>? progress, CancellationToken ct)
    {
        if (mono.Rate != Rate)
            throw new ArgumentException($"Spectra are taken at {Rate}; this signal is at {mono.Rate}. Resample it first.", nameof(mono));
        var frames = 1 + mono.Length / HopSamples;
        var (wide, middle, brief) = (new float[frames][], new float[frames][], new float[frames][]);
        var (wideKernels, middleKernels, briefKernels) = (WindowKernels.Long(a4), WindowKernels.Middle(a4), WindowKernels.Short(a4));
        var samples = mono.Cut(0, mono.Length).Channels[0];
        var done = 0;
        Parallel.For(0, frames, new ParallelOptions { CancellationToken = ct }, () => new CentredTransform(), (f, _, transform) =>
        {
            transform.Take(samples, f * HopSamples);
            wide[f] = wideKernels.Apply(transform);
            middle[f] = middleKernels.Apply(transform);
            brief[f] = briefKernels.Apply(transform);
            if (Interlocked.Increment(ref done) % 512 == 0)
                progress?.Report((double)done / frames);
            return transform;
        }, _ => { });
        return new(wide, middle, brief);
    }
}
