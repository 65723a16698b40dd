using System.Runtime.InteropServices;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Magnitude spectra of overlapping frames. Frame f is centred on sample f·hop; zeros stand before the start and after the end.</summary>
public sealed class Spectrogram
{
    private Spectrogram(float[,] magnitudes, int first, Seconds hop, double binHertz) =>
        (Magnitudes, First, Hop, BinHertz) = (magnitudes, first, hop, binHertz);

    /// <summary>The number of the first frame in the whole sound: 0 but in <see cref="InPieces"/>.</summary>
    public int First { get; }

    /// <summary>|X|, not scaled (see <see cref="RealFft.Magnitudes"/>); shape (frames, bins); the whole sound has 1 + length/hop frames, each size/2 + 1 bins.</summary>
    public float[,] Magnitudes { get; }

    /// <summary>The time from one frame to the next.</summary>
    public Seconds Hop { get; }

    /// <summary>The frequency from one bin to the next, in Hz.</summary>
    public double BinHertz { get; }

    public int Frames => Magnitudes.GetLength(0);

    public int Bins => Magnitudes.GetLength(1);

    /// <summary>The magnitudes of one frame.</summary>
    public Span<float> Frame(int frame) => MemoryMarshal.CreateSpan(ref Magnitudes[frame, 0], Bins);

    /// <summary>The time of a frame's centre in the sound.</summary>
    public Seconds TimeOf(double frame) => Hop * (First + frame);

    /// <param name="mono">One channel; mix down first.</param>
    /// <param name="size">FFT size in samples, a power of two.</param>
    /// <param name="hop">Samples from one frame to the next, 1 or more.</param>
    /// <param name="window">As long as the FFT, or shorter: the rest of the frame is then zero padding.</param>
    public static Spectrogram Of(Signal mono, int size, int hop, float[] window, CancellationToken cancellation = default)
    {
        Require(mono, size, hop, window);
        return Piece(mono, size, hop, window, 0, 1 + mono.Length / hop, cancellation);
    }

    /// <summary>The same spectra, some frames at a time, so that a long sound needs no more memory than a short one.</summary>
    /// <param name="frames">Frames a piece; the last has fewer.</param>
    public static IEnumerable<Spectrogram> InPieces(ISound mono, int size, int hop, float[] window, int frames, CancellationToken cancellation = default)
    {
        Require(mono, size, hop, window);
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        var all = 1 + mono.Length / hop;
        return Enumerable.Range(0, (all + frames - 1) / frames)
            .Select(piece => Piece(mono, size, hop, window, piece * frames, Math.Min(frames, all - piece * frames), cancellation));
    }

    private static Spectrogram Piece(ISound mono, int size, int hop, float[] window, int first, int frames, CancellationToken cancellation)
    {
        var samples = mono.Cut(first * hop - window.Length / 2, (frames - 1) * hop + window.Length).Channels[0];
        var spectrogram = new Spectrogram(new float[frames, size / 2 + 1], first, mono.Rate.TimeOf(hop), (double)mono.Rate.Hertz / size);
        Parallel.For(0, frames, new ParallelOptions { CancellationToken = cancellation },
            () => (Fft: new RealFft(size), Frame: new float[size]),
            (f, _, work) =>
            {
                for (var n = 0; n < window.Length; n++)
                    work.Frame[n] = samples[f * hop + n] * window[n];
                work.Fft.Magnitudes(work.Frame, spectrogram.Frame(f));
                return work;
            },
            _ => { });
        return spectrogram;
    }

    private static void Require(ISound mono, int size, int hop, float[] window)
    {
        if (mono.ChannelCount != 1)
            throw new ArgumentException($"A spectrogram is of one channel and this signal has {mono.ChannelCount}; call ToMono first.", nameof(mono));
        ArgumentOutOfRangeException.ThrowIfLessThan(hop, 1);
        if (window.Length > size || window.Length == 0)
            throw new ArgumentException($"A window of {window.Length} samples doesn't fit an FFT of {size}.", nameof(window));
    }
}
