using System.Numerics;
using System.Runtime.InteropServices;
using NAudio.Dsp;

namespace Harkbook.Audio.Signals;

/// <summary>
/// The discrete Fourier transform of real frames of one size:
/// X[k] = Σ x[n]·exp(−2πi·k·n/size) for k = 0 … size/2, not scaled; the inverse divides by the size.
/// </summary>
/// <remarks>A frame of N samples runs as a complex FFT of N/2. One instance serves one thread at a time.</remarks>
public sealed class RealFft
{
    private readonly FftProcessor processor;
    private readonly Bin[] spectrum;

    /// <param name="size">Samples a frame: a power of two from 4.</param>
    public RealFft(int size)
    {
        if (size < 4 || !BitOperations.IsPow2(size))
            throw new ArgumentOutOfRangeException(nameof(size), size, "An FFT size is a power of two from 4; round the frame up and pad it with zeros.");
        Size = size;
        processor = new FftProcessor(size, FftWindowType.None);
        spectrum = new Bin[Bins];
    }

    /// <summary>Samples a frame.</summary>
    public int Size { get; }

    /// <summary>Values of a spectrum: size/2 + 1, from 0 Hz to half the sample rate.</summary>
    public int Bins => Size / 2 + 1;

    /// <param name="frame">Shape (size).</param>
    /// <param name="spectrum">Filled; shape (size/2 + 1).</param>
    public void Forward(ReadOnlySpan<float> frame, Span<Bin> spectrum)
    {
        Require(frame.Length, Size, nameof(frame));
        Require(spectrum.Length, Bins, nameof(spectrum));
        processor.RealForward(frame, MemoryMarshal.Cast<Bin, NAudio.Dsp.Complex>(spectrum));
        foreach (ref var bin in spectrum)
            bin = new(bin.Real * Size, bin.Imaginary * Size);
    }

    /// <summary>The frame whose <see cref="Forward"/> is this spectrum.</summary>
    /// <param name="spectrum">Shape (size/2 + 1).</param>
    /// <param name="frame">Filled; shape (size).</param>
    public void Inverse(ReadOnlySpan<Bin> spectrum, Span<float> frame)
    {
        Require(spectrum.Length, Bins, nameof(spectrum));
        Require(frame.Length, Size, nameof(frame));
        processor.RealInverse(MemoryMarshal.Cast<Bin, NAudio.Dsp.Complex>(spectrum), frame);
        foreach (ref var sample in frame)
            sample /= Size;
    }

    /// <param name="windowedFrame">Shape (size); apply the window first.</param>
    /// <param name="magnitudes">Filled with |X[k]|; shape (size/2 + 1). A sine of amplitude a centred on a bin gives a/2 times the sum of the window.</param>
    public void Magnitudes(ReadOnlySpan<float> windowedFrame, Span<float> magnitudes)
    {
        Require(magnitudes.Length, Bins, nameof(magnitudes));
        Forward(windowedFrame, spectrum);
        for (var k = 0; k < spectrum.Length; k++)
            magnitudes[k] = spectrum[k].Magnitude;
    }

    private static void Require(int length, int expected, string name)
    {
        if (length != expected)
            throw new ArgumentException(
                $"This transform needs {expected} values here and was given {length}; a frame or spectrum of another size is the likely cause.", name);
    }
}
