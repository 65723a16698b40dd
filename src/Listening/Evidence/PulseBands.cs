using System.Numerics.Tensors;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Evidence;

/// <summary>
/// What the beat network looks at: 50 times a second, the spectrum in <see cref="Count"/> bands spaced evenly in pitch. The first 44, six an
/// octave from 60 Hz, come from windows of 46 ms and tell moments apart; the other 60, twelve an octave from 55 Hz, from windows of 186 ms and
/// tell neighbouring notes apart. Each is log10(1 + 1000·a)/2 of the mean amplitude a, after the recording is brought to a root mean square of 0.1.
/// training/beats/features.py makes the same numbers, held equal by a test. One instance serves one thread at a time.
/// </summary>
internal sealed class PulseBands : IPulseBands
{
    public const int Count = Moments.Bands + Pitches.Bands;
    public const int HopSamples = 441;

    private const double Level = 0.1;
    private const float Scale = 1000;

    public static SampleRate Rate { get; } = SampleRate.FromHertz(22_050);

    public static double FrameRate => (double)Rate.Hertz / HopSamples;

    private const int BlockSamples = 1 << 16;
    private const int LongestWindow = 4096;
    private const int Piece = 1024;

    private readonly ISound sound;
    private readonly float gain;
    private readonly float[] samples = new float[Piece * HopSamples + LongestWindow];

    /// <param name="sound">One channel; it is taken to be at <see cref="Rate"/>.</param>
    public PulseBands(ISound sound)
    {
        this.sound = sound;
        var loudness = sound.Length == 0 ? 0 : Math.Sqrt(SumOfSquares(sound) / sound.Length);
        gain = (float)(Level / (loudness + 1e-9));
    }

    /// <summary>Frame f is centred on sample f·441.</summary>
    public int Frames => 1 + sound.Length / HopSamples;

    /// <summary>The bands that tell moments apart, which come first.</summary>
    public static class Moments
    {
        public const int Bands = 44;
        public static readonly BandFilters Filters = new(1024, 60, Bands, 6);
    }

    private static class Pitches
    {
        public const int Bands = 60;
        public static readonly BandFilters Filters = new(LongestWindow, 55, Bands, 12);
    }

    /// <summary>Fills frames × <see cref="Count"/> values; all zero for silence.</summary>
    public void Fill(int first, int frames, Memory<float> values, CancellationToken cancellation) => Fill(first, frames, values, Count, cancellation);

    /// <summary>Fills frames × <see cref="Moments.Bands"/> values.</summary>
    public void FillMoments(int first, int frames, Memory<float> values, CancellationToken cancellation) =>
        Fill(first, frames, values, Moments.Bands, cancellation);

    private void Fill(int first, int frames, Memory<float> values, int width, CancellationToken cancellation)
    {
        for (var done = 0; done < frames; done += Piece)
            FillPiece(first + done, Math.Min(Piece, frames - done), values[(done * width)..], width, cancellation);
    }

    private void FillPiece(int first, int frames, Memory<float> values, int width, CancellationToken cancellation)
    {
        sound.Read(0, first * HopSamples - LongestWindow / 2, samples);
        Parallel.For(0, frames, new ParallelOptions { CancellationToken = cancellation },
            () => (Moments: new BandReader(Moments.Filters), Pitches: new BandReader(Pitches.Filters)),
            (f, _, readers) =>
            {
                var row = values.Span.Slice(f * width, width);
                var centre = LongestWindow / 2 + f * HopSamples;
                readers.Moments.Read(samples, centre, gain, row[..Moments.Bands]);
                if (width > Moments.Bands)
                    readers.Pitches.Read(samples, centre, gain, row[Moments.Bands..]);
                TensorPrimitives.Multiply(row, Scale, row);
                TensorPrimitives.LogP1(row, row);
                TensorPrimitives.Multiply(row, (float)(0.5 / Math.Log(10)), row);
                return readers;
            },
            _ => { });
    }

    private static double SumOfSquares(ISound sound)
    {
        var (sum, block) = (0.0, new float[BlockSamples]);
        for (var start = 0; start < sound.Length; start += BlockSamples)
        {
            sound.Read(0, start, block);
            foreach (double x in block)
                sum += x * x;
        }
        return sum;
    }
}
