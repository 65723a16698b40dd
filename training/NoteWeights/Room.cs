using Harkbook.Listening.Estimators.Notes;

namespace Harkbook.Training.NoteWeights;

/// <summary>What stands between the strings and the file: early echoes, the modes of a guitar's body, tilt and noise.</summary>
internal static class Room
{
    private static readonly int Rate = LogSpectrum.Rate.Hertz;

    public static void Furnish(float[] samples, Random random)
    {
        if (random.NextDouble() < 0.6)
            Echo(samples, random);
        if (random.NextDouble() < 0.75)
        {
            // Air, top plate and a higher mode of common guitars: textbook places.
            Mode(samples, random, 88 + 30 * random.NextDouble(), 0.03 + 0.08 * random.NextDouble());
            Mode(samples, random, 165 + 70 * random.NextDouble(), 0.02 + 0.07 * random.NextDouble());
            Mode(samples, random, 330 + 120 * random.NextDouble(), 0.015 + 0.04 * random.NextDouble());
        }
        Tilt(samples, random);
    }

    private static void Echo(float[] samples, Random random)
    {
        var dry = (float[])samples.Clone();
        for (var tap = 0; tap < 25; tap++)
        {
            var delay = (int)(Rate * (0.004 + 0.12 * random.NextDouble() * random.NextDouble()));
            var gain = (float)(0.35 * (random.NextDouble() - 0.5) * Math.Exp(-delay / 1500.0));
            for (var i = delay; i < samples.Length; i++)
                samples[i] += gain * dry[i - delay];
        }
    }

    private static void Mode(float[] samples, Random random, double hertz, double seconds)
    {
        var (radius, angle) = (Math.Exp(-1 / (seconds * Rate)), 2 * Math.PI * hertz / Rate);
        var gain = 64 * random.NextDouble() * Math.Sin(angle) * (1 - radius);
        var (before, y1, y2) = (0f, 0.0, 0.0);
        for (var i = 0; i < samples.Length; i++)
        {
            var drive = samples[i] - 0.97 * before;
            before = samples[i];
            (y1, y2) = (drive + 2 * radius * Math.Cos(angle) * y1 - radius * radius * y2, y1);
            samples[i] += (float)(gain * y1);
        }
    }

    private static void Tilt(float[] samples, Random random)
    {
        var (tilt, noise, before) = ((float)(1.4 * (random.NextDouble() - 0.5)), Math.Pow(10, -2.3 - 1.5 * random.NextDouble()), 0f);
        for (var i = 0; i < samples.Length; i++)
            (samples[i], before) = (samples[i] + tilt * before, samples[i]);
        var peak = samples.Max(Math.Abs) + 1e-6f;
        for (var i = 0; i < samples.Length; i++)
            samples[i] = 0.7f * samples[i] / peak + (float)(noise * (random.NextDouble() - 0.5));
    }
}
