using System.Numerics.Tensors;
using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Evidence;

/// <summary>Magnitude spectra of windowed frames at any rate; the window is given in seconds, so it sounds the same at every sample rate.</summary>
internal sealed class FrameReader
{
    private readonly ISound sound;
    private readonly int rate;
    private readonly float[] window;
    private readonly float[] frame;
    private readonly RealFft fft;
    private readonly float scale;

    public FrameReader(ISound mono, double windowSeconds)
    {
        sound = mono;
        rate = mono.Rate.Hertz;
        window = Window.Hann(Math.Max(8, (int)Math.Round(windowSeconds * rate)));
        var size = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)window.Length);
        fft = new(size);
        frame = new float[size];
        scale = 4f / window.Length;
    }

    public double BinHertz => (double)rate / fft.Size;

    public int Bins => fft.Bins;

    /// <summary>The amplitude of each bin (a sine of amplitude 1 reads 1) of the frame centred on a time in seconds.</summary>
    public void Read(double centre, Span<float> magnitudes)
    {
        var cut = frame.AsSpan(0, window.Length);
        sound.Read(0, (int)Math.Round(centre * rate) - window.Length / 2, cut);
        TensorPrimitives.Multiply(cut, window, cut);
        fft.Magnitudes(frame, magnitudes);
        foreach (ref var magnitude in magnitudes)
            magnitude *= scale;
    }
}
