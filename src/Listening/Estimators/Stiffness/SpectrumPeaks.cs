using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Stiffness;

/// <summary>A peak of a spectrum.</summary>
/// <param name="Hertz">Interpolated.</param>
/// <param name="Decibels">Above the floor about it.</param>
internal readonly record struct SpectrumPeak(double Hertz, float Decibels);

/// <summary>
/// Finds the peaks of a stretch of sound: local maxima of a Hann-windowed spectrum, placed between bins by a parabola through log magnitudes, and how
/// far each stands above the median about it. One instance serves one thread.
/// </summary>
internal sealed class SpectrumPeaks
{
    private const int FloorReach = 40, FloorStep = 64, FloorStride = 2;
    private const float Least = 4;

    private readonly RealFft fft;
    private readonly float[] window, frame, levels;
    private readonly Bin[] bins;
    private readonly float[] floors, sorted = new float[2 * FloorReach / FloorStride + 1];
    private readonly double binHertz;
    private readonly int last;

    /// <param name="samples">Of the window; zeros fill it up to twice a power of two.</param>
    public SpectrumPeaks(SampleRate rate, int samples, double highest)
    {
        var size = (int)System.Numerics.BitOperations.RoundUpToPowerOf2((uint)(2 * samples));
        (fft, window, frame, bins) = (new(size), Window.Hann(samples), new float[size], new Bin[size / 2 + 1]);
        binHertz = (double)rate.Hertz / size;
        last = Math.Min(size / 2 - FloorReach - 2, (int)(highest / binHertz));
        (levels, floors) = (new float[last + FloorReach + 2], new float[last / FloorStep + 2]);
        BinsInWindow = (double)size / samples;
    }

    /// <summary>The width of the window's own bin in hertz: how finely it tells frequencies apart.</summary>
    public double Resolution => binHertz * BinsInWindow;

    private double BinsInWindow { get; }

    /// <param name="sound">As long as the window.</param>
    /// <param name="into">Filled with peaks, rising.</param>
    public void Find(ReadOnlySpan<float> sound, List<SpectrumPeak> into)
    {
        for (var n = 0; n < window.Length; n++)
            frame[n] = sound[n] * window[n];
        fft.Forward(frame, bins);
        for (var k = 0; k < levels.Length; k++)
            levels[k] = bins[k].Real * bins[k].Real + bins[k].Imaginary * bins[k].Imaginary + 1e-12f;
        Floors();
        into.Clear();
        for (var k = 2; k < last; k++)
        {
            if (levels[k] > levels[k - 1] && levels[k] >= levels[k + 1])
                Add(k, into);
        }
    }

    private void Add(int k, List<SpectrumPeak> into)
    {
        var (at, part) = (k / FloorStep, k % FloorStep / (float)FloorStep);
        var decibels = 10 * MathF.Log10(levels[k]) - (floors[at] * (1 - part) + floors[at + 1] * part);
        if (decibels < Least)
            return;
        var (a, b, c) = (MathF.Log(levels[k - 1]), MathF.Log(levels[k]), MathF.Log(levels[k + 1]));
        var off = (a - c) / (2 * (a - 2 * b + c) - 1e-9f);
        into.Add(new((k + Math.Clamp(off, -0.5f, 0.5f)) * binHertz, decibels));
    }

    /// <summary>Medians in decibels, one for every few bins, of every second bin about it: zeros after the window make neighbours alike.</summary>
    private void Floors()
    {
        for (var i = 0; i < floors.Length; i++)
        {
            var from = Math.Clamp(i * FloorStep - FloorReach, 0, levels.Length - 2 * FloorReach - 1);
            for (var k = 0; k < sorted.Length; k++)
                sorted[k] = levels[from + FloorStride * k];
            Array.Sort(sorted);
            floors[i] = 10 * MathF.Log10(sorted[sorted.Length / 2]);
        }
    }
}
