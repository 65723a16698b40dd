using System.Numerics.Tensors;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What the beat network looks at: 50 times a second, the spectrum in <see cref="Count"/> bands spaced evenly in pitch. The first 44, six an
/// octave from 60 Hz, come from windows of 46 ms and tell moments apart; the other 60, twelve an octave from 55 Hz, from windows of 186 ms and
/// tell neighbouring notes apart. Each is log10(1 + 1000·a)/2 of the mean amplitude a, after the recording is brought to a root mean square of 0.1.
/// training/beats/features.py makes the same numbers, held equal by a test.
/// </summary>
internal static class PulseBands
{
    public const int Count = Moments.Bands + Pitches.Bands;
    public const int HopSamples = 441;

    private const double Level = 0.1;
    private const float Scale = 1000;

    public static SampleRate Rate { get; } = SampleRate.FromHertz(22_050);

    public static double FrameRate => (double)Rate.Hertz / HopSamples;

    private static class Moments
    {
        public const int Bands = 44;
        public static readonly BandFilters Filters = new(1024, 60, Bands, 6);
    }

    private static class Pitches
    {
        public const int Bands = 60;
        public static readonly BandFilters Filters = new(4096, 55, Bands, 12);
    }

    /// <summary>Shape (frames × bands), frame f centred on sample f·441; all zero for silence.</summary>
    /// <param name="samples">One channel at <see cref="Rate"/>.</param>
    public static float[] Of(float[] samples, CancellationToken cancellation)
    {
        var frames = 1 + samples.Length / HopSamples;
        var bands = new float[frames * Count];
        var loudness = samples.Length == 0 ? 0 : Math.Sqrt(samples.Sum(x => (double)x * x) / samples.Length);
        var gain = (float)(Level / (loudness + 1e-9));
        Parallel.For(0, frames, new ParallelOptions { CancellationToken = cancellation },
            () => (Moments: new BandReader(Moments.Filters), Pitches: new BandReader(Pitches.Filters)),
            (f, _, readers) =>
            {
                var row = bands.AsSpan(f * Count, Count);
                readers.Moments.Read(samples, f * HopSamples, gain, row[..Moments.Bands]);
                readers.Pitches.Read(samples, f * HopSamples, gain, row[Moments.Bands..]);
                TensorPrimitives.Multiply(row, Scale, row);
                TensorPrimitives.LogP1(row, row);
                TensorPrimitives.Multiply(row, (float)(0.5 / Math.Log(10)), row);
                return readers;
            },
            _ => { });
        return bands;
    }
}
