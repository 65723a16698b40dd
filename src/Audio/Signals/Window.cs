namespace Harkbook.Audio.Signals;

/// <summary>
/// Periodic (DFT-even) windows as sums of cosines; F. J. Harris, "On the use of windows for harmonic analysis
/// with the discrete Fourier transform", Proceedings of the IEEE 66 (1978).
/// </summary>
public static class Window
{
    public static float[] Hann(int length) => CosineSum(length, 0.5, 0.5);

    public static float[] Hamming(int length) => CosineSum(length, 0.54, 0.46);

    public static float[] Blackman(int length) => CosineSum(length, 0.42, 0.5, 0.08);

    /// <summary>Four terms; side lobes below −92 dB.</summary>
    public static float[] BlackmanHarris(int length) => CosineSum(length, 0.35875, 0.48829, 0.14128, 0.01168);

    private static float[] CosineSum(int length, params ReadOnlySpan<double> terms)
    {
        if (length < 1)
            throw new ArgumentOutOfRangeException(nameof(length), length, "A window needs at least one sample.");
        var window = new float[length];
        for (var n = 0; n < length; n++)
        {
            var value = 0.0;
            for (var term = 0; term < terms.Length; term++)
                value += (term % 2 == 0 ? 1 : -1) * terms[term] * Math.Cos(2 * Math.PI * term * n / length);
            window[n] = (float)value;
        }
        return window;
    }
}
