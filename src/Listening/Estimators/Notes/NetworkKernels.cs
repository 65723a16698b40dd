using System.Numerics.Tensors;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// The spectra of Hann-windowed sinusoids that the note network's input is analysed with, three a semitone from MIDI
/// <see cref="LowestMidi"/> up. As training/notes/features.py defines them, to the sample: windows are of whole even lengths,
/// and each spectrum is kept within four lobes of its frequency.
/// </summary>
internal sealed class NetworkKernels
{
    public const int LowestMidi = 34;

    private const int Size = CentredTransform.Size;
    private const int LobesKept = 4;

    private readonly (int First, float[] Real, float[] Imaginary)[] kernels;

    private NetworkKernels(Hertz a4, double q, int shortest, int longest)
    {
        var fft = new RealFft(Size);
        kernels = [.. Enumerable.Range(0, LogSpectrum.Bins).Select(b => Kernel(fft, FrequencyOf(b, a4), q, shortest, longest))];
    }

    public static NetworkKernels Long(Hertz a4) => new(a4, 36, 700, 8192);

    public static NetworkKernels Short(Hertz a4) => new(a4, 11, 256, 1024);

    /// <summary>The bin nearest to a place on the MIDI scale; it may lie beyond the last.</summary>
    public static int BinOf(double midi) => (int)Math.Round((midi - LowestMidi) * LogSpectrum.BinsPerSemitone);

    /// <summary>A magnitude a bin: about the amplitude of a sinusoid at the bin's frequency.</summary>
    public float[] Apply(CentredTransform transform)
    {
        var magnitudes = new float[kernels.Length];
        for (var b = 0; b < magnitudes.Length; b++)
        {
            var (first, real, imaginary) = kernels[b];
            var x = transform.Real.AsSpan(first, real.Length);
            var y = transform.Imaginary.AsSpan(first, real.Length);
            var along = TensorPrimitives.Dot(x, real) + TensorPrimitives.Dot(y, imaginary);
            var across = TensorPrimitives.Dot(y, real) - TensorPrimitives.Dot(x, imaginary);
            magnitudes[b] = MathF.Sqrt(along * along + across * across);
        }
        return magnitudes;
    }

    private static double FrequencyOf(int bin, Hertz a4) =>
        a4.Value * Math.Pow(2, (LowestMidi + bin / (double)LogSpectrum.BinsPerSemitone - 69) / 12);

    private static (int First, float[] Real, float[] Imaginary) Kernel(RealFft fft, double frequency, double q, int shortest, int longest)
    {
        double rate = LogSpectrum.Rate.Hertz;
        var length = Math.Clamp(2 * (int)Math.Round(q * rate / frequency / 2), shortest, longest);
        var (cosine, sine) = (Windowed(frequency, length, Math.Cos), Windowed(frequency, length, Math.Sin));
        var (ofCosine, ofSine) = (new Bin[fft.Bins], new Bin[fft.Bins]);
        fft.Forward(cosine, ofCosine);
        fft.Forward(sine, ofSine);
        var reach = LobesKept * rate / length;
        var near = Enumerable.Range(0, fft.Bins).Where(k => Math.Abs(k * rate / Size - frequency) <= reach).ToArray();
        // Phases count from the centre of the frame, as the transform's do.
        return (near[0],
            [.. near.Select(k => (k % 2 == 0 ? 1 : -1) * (ofCosine[k].Real - ofSine[k].Imaginary) / Size)],
            [.. near.Select(k => (k % 2 == 0 ? 1 : -1) * (ofCosine[k].Imaginary + ofSine[k].Real) / Size)]);
    }

    private static float[] Windowed(double frequency, int length, Func<double, double> wave)
    {
        var frame = new float[Size];
        for (var n = 0; n < length; n++)
        {
            var window = 0.5 - 0.5 * Math.Cos(2 * Math.PI * n / length);
            // A periodic Hann window sums to half its length.
            frame[Size / 2 - length / 2 + n] = (float)(window * wave(2 * Math.PI * frequency * (n - length / 2) / LogSpectrum.Rate.Hertz) * 4 / length);
        }
        return frame;
    }
}
