using Harkbook.Audio.Signals;

namespace Harkbook.Audio.Synthesis.Mixing;

/// <summary>Plays a sound from a tape machine: resampled along its transport, with hiss.</summary>
public static class Tape
{
    private const int Half = 32;

    /// <summary>Half the width of the kernel's transition from passing to stopping, as a share of Nyquist.</summary>
    private const double Transition = 0.086;
    private const int Phases = 512;

    /// <param name="hissDecibels">Level of the hiss, RMS against full scale (1.0); −120 or less is none.</param>
    public static Signal Play(Signal sound, TapeTransport transport, double hissDecibels, int seed)
    {
        var kernel = Kernel(Math.Min(1, 1 / transport.Ratio) - Transition);
        var length = sound.Rate.SamplesIn(transport.OnTape(sound.Duration));
        var positions = new double[length];
        for (var n = 0; n < length; n++)
            positions[n] = transport.Played(sound.Rate.TimeOf(n)).Value * sound.Rate.Hertz;
        var hiss = hissDecibels > -120 ? Math.Pow(10, hissDecibels / 20) * Math.Sqrt(3) : 0;
        return new(sound.Rate, [.. sound.Channels.Select((c, i) => Read(c, positions, kernel, hiss, new(seed + i)))]);
    }

    private static float[] Read(float[] channel, double[] positions, float[] kernel, double hiss, Noise noise)
    {
        var output = new float[positions.Length];
        for (var n = 0; n < output.Length; n++)
            output[n] = (float)(At(channel, positions[n], kernel) + hiss * noise.Next());
        return output;
    }

    private static double At(float[] channel, double position, float[] kernel)
    {
        var whole = (int)Math.Floor(position);
        var phase = (position - whole) * Phases;
        var (low, share) = ((int)phase, phase - (int)phase);
        double sum = 0;
        for (var k = -Half + 1; k <= Half; k++)
        {
            var i = whole + k;
            if ((uint)i >= (uint)channel.Length)
                continue;
            var at = (k + Half - 1) * (Phases + 1) + low;
            sum += channel[i] * (kernel[at] + share * (kernel[at + 1] - kernel[at]));
        }
        return sum;
    }

    /// <summary>A Blackman-windowed sinc with its cut-off as a share of Nyquist, tabled for each tap and fraction of a sample.</summary>
    private static float[] Kernel(double cutoff)
    {
        var kernel = new float[2 * Half * (Phases + 1) + 1];
        for (var tap = 0; tap < 2 * Half; tap++)
        {
            for (var p = 0; p <= Phases; p++)
                kernel[tap * (Phases + 1) + p] = (float)WindowedSinc(tap - Half + 1 - (double)p / Phases, cutoff);
        }
        return kernel;
    }

    private static double WindowedSinc(double x, double cutoff)
    {
        if (Math.Abs(x) >= Half)
            return 0;
        var window = 0.42 + 0.5 * Math.Cos(Math.PI * x / Half) + 0.08 * Math.Cos(2 * Math.PI * x / Half);
        var sinc = x == 0 ? cutoff : Math.Sin(Math.PI * cutoff * x) / (Math.PI * x);
        return window * sinc;
    }
}
