using System.Numerics.Tensors;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// For every log-frequency bin, the transform of a Hann window at its frequency, so that a weighted sum of Fourier bins
/// gives what that window would have given in the time domain.
/// </summary>
internal sealed class WindowKernels
{
    private const double LobesKept = 4;

    private readonly (int First, float[] Weights)[] kernels = new (int, float[])[LogSpectrum.Bins];
    private readonly double[] seconds = new double[LogSpectrum.Bins];
    private readonly double[] hertz = new double[LogSpectrum.Bins];

    private WindowKernels(Hertz a4, double q, int shortest, int longest)
    {
        double rate = LogSpectrum.Rate.Hertz;
        var binHertz = rate / CentredTransform.Size;
        for (var b = 0; b < kernels.Length; b++)
        {
            hertz[b] = a4.Value * Math.Pow(2, (LogSpectrum.MidiOf(b) - 69) / 12);
            seconds[b] = Math.Clamp(q * rate / hertz[b], shortest, longest) / rate;
            var reach = LobesKept / seconds[b];
            var first = Math.Max(1, (int)Math.Ceiling((hertz[b] - reach) / binHertz));
            var last = Math.Min(CentredTransform.Size / 2 - 1, (int)((hertz[b] + reach) / binHertz));
            kernels[b] = (first, [.. Enumerable.Range(first, Math.Max(0, last - first + 1))
                .Select(k => (float)(2.0 / CentredTransform.Size * Response(b, k * binHertz)))]);
        }
    }

    public static WindowKernels Long(Hertz a4) => new(a4, 36, 820, 8192);

    public static WindowKernels Middle(Hertz a4) => new(a4, 20, 512, 2048);

    public static WindowKernels Short(Hertz a4) => new(a4, 11, 256, 1024);

    /// <summary>What a sinusoid of amplitude 1 at a frequency gives in a bin.</summary>
    public double Response(int bin, double frequency)
    {
        var x = Math.Abs(frequency - hertz[bin]) * seconds[bin];
        return x > LobesKept ? 0
            : x < 1e-6 ? 1
            : Math.Abs(x - 1) < 1e-6 ? 0.5
            : Math.Sin(Math.PI * x) / (Math.PI * x * (1 - x * x));
    }

    public float[] Apply(CentredTransform transform)
    {
        var magnitudes = new float[kernels.Length];
        for (var b = 0; b < magnitudes.Length; b++)
        {
            var (first, weights) = kernels[b];
            var real = TensorPrimitives.Dot(transform.Real.AsSpan(first, weights.Length), weights);
            var imaginary = TensorPrimitives.Dot(transform.Imaginary.AsSpan(first, weights.Length), weights);
            magnitudes[b] = MathF.Sqrt(real * real + imaginary * imaginary);
        }
        return magnitudes;
    }
}
