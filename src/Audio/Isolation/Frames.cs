using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Isolation;

/// <summary>
/// Takes sound apart into spectra of overlapping frames; <see cref="JoinedFrames"/> puts it together again. Hann windows on both ways, a quarter of a frame
/// apart, add up to the sound unchanged
/// (J. B. Allen and L. R. Rabiner, "A unified approach to short-time Fourier analysis and synthesis", Proc. IEEE 65, 1977).
/// </summary>
internal sealed class Frames
{
    private readonly int size, hop;
    private readonly float[] window;
    private readonly RealFft fft;
    private readonly float[] frame;

    /// <summary>Frames of about 93 ms.</summary>
    public Frames(SampleRate rate)
    {
        size = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(0.06 * rate.Hertz));
        hop = size / 4;
        window = Window.Hann(size);
        (fft, frame) = (new(size), new float[size]);
    }

    public int Bins => size / 2 + 1;

    public int Size => size;

    /// <summary>Samples from one frame to the next.</summary>
    public int Hop => hop;

    /// <summary>Frames that touch a sound of this length.</summary>
    public int CountOf(int length) => length / hop + 4;

    /// <param name="index">0 is the first frame that touches the sound.</param>
    public void Take(ISound sound, int channel, int index, Bin[] into)
    {
        sound.Read(channel, StartOf(index), frame);
        for (var n = 0; n < size; n++)
            frame[n] *= window[n];
        fft.Forward(frame, into);
    }

    /// <summary>A frame as it counts in the sum of all.</summary>
    public ReadOnlySpan<float> Back(Bin[] spectrum)
    {
        fft.Inverse(spectrum, frame);
        // Four squared Hann windows a quarter apart add up to 1.5.
        for (var n = 0; n < size; n++)
            frame[n] = frame[n] * window[n] / 1.5f;
        return frame;
    }

    /// <summary>A frame's first sample.</summary>
    public int StartOf(int index) => (index - 3) * hop;
}
