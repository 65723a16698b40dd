using System.Numerics.Tensors;
using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Evidence;

/// <summary>Reads one frame after another through a Hann window into bands. One instance serves one thread.</summary>
internal sealed class BandReader(BandFilters filters)
{
    private readonly RealFft fft = new(filters.Window);
    private readonly float[] window = Window.Hann(filters.Window);
    private readonly float[] frame = new float[filters.Window];
    private readonly float[] magnitudes = new float[filters.Window / 2 + 1];

    /// <param name="centre">The sample in the middle of the frame; zeros stand before the start and after the end.</param>
    /// <param name="bands">Filled with mean amplitudes: a sine of amplitude 1 reads 1 in its bin.</param>
    public void Read(float[] samples, int centre, float gain, Span<float> bands)
    {
        var start = centre - window.Length / 2;
        var (from, to) = (Math.Max(0, -start), Math.Min(window.Length, samples.Length - start));
        frame.AsSpan().Clear();
        if (from < to)
            TensorPrimitives.Multiply(samples.AsSpan(start + from, to - from), window.AsSpan(from, to - from), frame.AsSpan(from, to - from));
        fft.Magnitudes(frame, magnitudes);
        TensorPrimitives.Multiply(magnitudes, 4 * gain / window.Length, magnitudes);
        filters.Apply(magnitudes, bands);
    }
}
