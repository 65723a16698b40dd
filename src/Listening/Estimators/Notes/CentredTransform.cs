using System.Numerics.Tensors;
using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>The Fourier transform of the stretch of sound about one sample, with phases counted from that sample.</summary>
internal sealed class CentredTransform
{
    public const int Size = 8192;

    private readonly RealFft fft = new(Size);
    private readonly float[] frame = new float[Size];
    private readonly Bin[] bins = new Bin[Size / 2 + 1];

    public float[] Real { get; } = new float[Size / 2 + 1];

    public float[] Imaginary { get; } = new float[Size / 2 + 1];

    public void Take(ReadOnlySpan<float> samples, int centre)
    {
        var from = centre - Size / 2;
        var (first, last) = (Math.Max(0, from), Math.Min(samples.Length, from + Size));
        Array.Clear(frame);
        if (last > first)
            samples[first..last].CopyTo(frame.AsSpan(first - from));
        fft.Forward(frame, bins);
        for (var k = 0; k < bins.Length; k++)
        {
            var sign = k % 2 == 0 ? 1 : -1;
            (Real[k], Imaginary[k]) = (sign * bins[k].Real, sign * bins[k].Imaginary);
        }
    }

    /// <summary>Becomes the transform of the mean of sounds whose transforms are given.</summary>
    public void TakeMean(IReadOnlyList<CentredTransform> of)
    {
        of[0].Real.CopyTo(Real, 0);
        of[0].Imaginary.CopyTo(Imaginary, 0);
        foreach (var other in of.Skip(1))
        {
            TensorPrimitives.Add(Real, other.Real, Real);
            TensorPrimitives.Add(Imaginary, other.Imaginary, Imaginary);
        }
        TensorPrimitives.Divide(Real, of.Count, Real);
        TensorPrimitives.Divide(Imaginary, of.Count, Imaginary);
    }
}
