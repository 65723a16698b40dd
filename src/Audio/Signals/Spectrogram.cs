using System.Runtime.InteropServices;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Magnitude spectra of overlapping frames. Frame f is centred on sample f·hop; zeros stand before the start and after the end.</summary>
public sealed class Spectrogram
{
    private Spectrogram(float[,] magnitudes, Seconds hop, double binHertz) =>
        (Magnitudes, Hop, BinHertz) = (magnitudes, hop, binHertz);

    /// <summary>|X|, not scaled (see <see cref="RealFft.Magnitudes"/>); shape (frames, bins) = (1 + length/hop, size/2 + 1).</summary>
    public float[,] Magnitudes { get; }

    /// <summary>The time from one frame to the next.</summary>
    public Seconds Hop { get; }

    /// <summary>The frequency from one bin to the next, in Hz.</summary>
    public double BinHertz { get; }

    public int Frames => Magnitudes.GetLength(0);

    public int Bins => Magnitudes.GetLength(1);

    /// <summary>The magnitudes of one frame.</summary>
    public Span<float> Frame(int frame) => MemoryMarshal.CreateSpan(ref Magnitudes[frame, 0], Bins);

    /// <summary>The time of a frame's centre.</summary>
    public Seconds TimeOf(double frame) => Hop * frame;

    /// <param name="mono">One channel; mix down first.</param>
    /// <param name="size">FFT size in samples, a power of two.</param>
    /// <param name="hop">Samples from one frame to the next, 1 or more.</param>
    /// <param name="window">As long as the FFT, or shorter: the rest of the frame is then zero padding.</param>
    public static Spectrogram Of(Signal mono, int size, int hop, float[] window, CancellationToken cancellation = default)
    {
        Require(mono, size, hop, window);
        var samples = mono.Channels[0];
        var frames = 1 + samples.Length / hop;
        var spectrogram = new Spectrogram(new float[frames, size / 2 + 1], mono.Rate.TimeOf(hop), (double)mono.Rate.Hertz / size);
        Parallel.For(0, frames, new ParallelOptions { CancellationToken = cancellation },
            () => (Fft: new RealFft(size), Frame: new float[size]),
            (f, _, work) =>
            {
                Cut(samples, (long)f * hop - window.Length / 2, window, work.Frame);
                work.Fft.Magnitudes(work.Frame, spectrogram.Frame(f));
                return work;
            },
            _ => { });
        return spectrogram;
    }

    private static void Cut(float[] samples, long start, float[] window, Span<float> frame)
    {
        frame.Clear();
        var from = (int)Math.Max(0, -start);
        var to = (int)Math.Min(window.Length, samples.Length - start);
        for (var n = from; n < to; n++)
            frame[n] = samples[start + n] * window[n];
    }

    private static void Require(Signal mono, int size, int hop, float[] window)
    {
        if (mono.Channels.Count != 1)
            throw new ArgumentException($"A spectrogram is of one channel and this signal has {mono.Channels.Count}; call ToMono first.", nameof(mono));
        ArgumentOutOfRangeException.ThrowIfLessThan(hop, 1);
        if (window.Length > size || window.Length == 0)
            throw new ArgumentException($"A window of {window.Length} samples doesn't fit an FFT of {size}.", nameof(window));
    }
}
