using System.Runtime.InteropServices;
using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Magnitude spectra of overlapping frames. Frame f is centred on sample f·hop; zeros stand before the start and after the end.</summary>
public sealed class Spectrogram
{
    private const int PieceFrames = 128;

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
        var spectrogram = new Spectrogram(new float[1 + mono.Length / hop, size / 2 + 1], mono.Rate.TimeOf(hop), (double)mono.Rate.Hertz / size);
        Visit(mono, size, hop, window, (frame, magnitudes) => magnitudes.CopyTo(spectrogram.Frame(frame)), cancellation);
        return spectrogram;
    }

    /// <summary>Shows every frame's spectrum once and keeps none, so that a long sound needs no more memory than a short one.</summary>
    /// <param name="visit">Called by several threads at once, in any order.</param>
    public static void Visit(ISound mono, int size, int hop, float[] window, FrameVisitor visit, CancellationToken cancellation = default)
    {
        Require(mono, size, hop, window);
        var all = 1 + mono.Length / hop;
        var samples = new float[(Math.Min(all, PieceFrames) - 1) * hop + window.Length];
        for (var first = 0; first < all; first += PieceFrames)
        {
            var piece = first;
            mono.Read(0, first * hop - window.Length / 2, samples);
            Parallel.For(0, Math.Min(PieceFrames, all - first), new ParallelOptions { CancellationToken = cancellation },
                () => (Fft: new RealFft(size), Frame: new float[size], Magnitudes: new float[size / 2 + 1]),
                (f, _, work) =>
                {
                    for (var n = 0; n < window.Length; n++)
                        work.Frame[n] = samples[f * hop + n] * window[n];
                    work.Fft.Magnitudes(work.Frame, work.Magnitudes);
                    visit(piece + f, work.Magnitudes);
                    return work;
                },
                _ => { });
        }
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
