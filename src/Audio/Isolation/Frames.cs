using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Audio.Isolation;

/// <summary>
/// Takes sound apart into spectra of overlapping frames and puts it together again, frame by frame, so that memory stays flat
/// but for the sound itself. Hann windows on both ways, a quarter of a frame apart, add up to the sound unchanged
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

    /// <summary>Frames that touch a sound of this length.</summary>
    public int CountOf(int length) => length / hop + 4;

    /// <param name="index">0 is the first frame that touches the sound.</param>
    public void Take(float[] samples, int index, Bin[] into)
    {
        var start = (index - 3) * hop;
        for (var n = 0; n < size; n++)
            frame[n] = start + n >= 0 && start + n < samples.Length ? samples[start + n] * window[n] : 0;
        fft.Forward(frame, into);
    }

    /// <summary>Adds a frame to what the others made.</summary>
    public void Put(Bin[] spectrum, int index, float[] into)
    {
        fft.Inverse(spectrum, frame);
        var start = (index - 3) * hop;
        // Four squared Hann windows a quarter apart add up to 1.5.
        for (var n = Math.Max(0, -start); n < size && start + n < into.Length; n++)
            into[start + n] += frame[n] * window[n] / 1.5f;
    }
}
