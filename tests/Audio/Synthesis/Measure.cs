using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Tests.Synthesis;

/// <summary>Measurements by plain sums, independent of the code under test.</summary>
internal static class Measure
{
    /// <summary>Frequency of the spectral peak within some cents of a guess: the maximum of the Hann-windowed Fourier sum.</summary>
    public static double Frequency(Signal signal, double from, double length, double guess, double cents = 40)
    {
        var (low, high) = (guess * Math.Pow(2, -cents / 1200), guess * Math.Pow(2, cents / 1200));
        var best = Enumerable.Range(0, 41).Select(i => low + (high - low) * i / 40).MaxBy(f => Level(signal, from, length, f));
        var step = (high - low) / 40;
        (low, high) = (best - step, best + step);
        for (var i = 0; i < 30; i++)
        {
            var (a, b) = (low + (high - low) / 3, high - (high - low) / 3);
            if (Level(signal, from, length, a) < Level(signal, from, length, b))
                low = a;
            else
                high = b;
        }
        return (low + high) / 2;
    }

    /// <summary>Amplitude of a sine at a frequency over a stretch (seconds), Hann-windowed.</summary>
    public static double Level(Signal signal, double from, double length, double frequency)
    {
        var x = signal.Channels[0];
        var (start, count) = ((int)(from * signal.Rate.Hertz), (int)(length * signal.Rate.Hertz));
        var w = 2 * Math.PI * frequency / signal.Rate.Hertz;
        var (re, im) = (0.0, 0.0);
        for (var i = 0; i < count; i++)
        {
            var v = x[start + i] * (1 - Math.Cos(2 * Math.PI * i / count));
            re += v * Math.Cos(w * i);
            im += v * Math.Sin(w * i);
        }
        return 2 * Math.Sqrt(re * re + im * im) / count;
    }

    public static double Rms(Signal signal, double from, double length) =>
        Rms(signal.Channels[0], (int)(from * signal.Rate.Hertz), (int)(length * signal.Rate.Hertz));

    public static double Rms(float[] x, int start, int count) => Math.Sqrt(x.Skip(start).Take(count).Sum(v => (double)v * v) / count);

    public static double Decibels(double ratio) => 20 * Math.Log10(ratio);

    public static double Cents(double from, double to) => 1200 * Math.Log2(to / from);

    public static Signal Sine(int rate, double frequency, double seconds, double amplitude = 1) =>
        new(Units.SampleRate.FromHertz(rate),
            [.. Enumerable.Range(0, (int)(rate * seconds)).Select(i => (float)(amplitude * Math.Sin(2 * Math.PI * frequency * i / rate)))]);
}
