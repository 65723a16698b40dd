using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Magnitude spectra of windowed frames at any rate; the window is given in seconds, so it sounds the same at every sample rate.</summary>
internal sealed class FrameReader
{
    private readonly float[] samples;
    private readonly int rate;
    private readonly float[] window;
    private readonly float[] frame;
    private readonly RealFft fft;
    private readonly float scale;

    public FrameReader(Signal mono, double windowSeconds)
    {
        samples = mono.Channels[0];
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
        Array.Clear(frame);
        var start = (long)Math.Round(centre * rate) - window.Length / 2;
        var from = (int)Math.Max(0, -start);
        var to = (int)Math.Min(window.Length, samples.Length - start);
        for (var n = from; n < to; n++)
            frame[n] = samples[start + n] * window[n];
        fft.Magnitudes(frame, magnitudes);
        foreach (ref var magnitude in magnitudes)
            magnitude *= scale;
    }
}
