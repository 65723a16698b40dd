namespace Harkbook.Listening.Evidence;

/// <summary>The harmony and the tone colour of a sound, ten times a second, by which bars are likened.</summary>
/// <param name="Bands">How many bands the tone colour has.</param>
/// <param name="Harmony">Shape (frames, 12): pitch classes, A first, of unit length.</param>
/// <param name="Levels">Shape (frames, bands): natural logarithms of band levels.</param>
internal sealed record SoundColour(int Bands, Half[] Harmony, Half[] Levels)
{
    public const int Classes = 12;
    public const double Hop = 0.1;

    public static SoundColour None { get; } = new(1, [], []);

    public int Frames => Harmony.Length / Classes;

    /// <summary>Mean harmony of the frames within two times, at least one frame.</summary>
    public double[] HarmonyWithin(double start, double end) => Mean(Harmony, Classes, start, end);

    /// <summary>Mean band levels of the frames within two times, at least one frame.</summary>
    public double[] LevelsWithin(double start, double end) => Mean(Levels, Bands, start, end);

    private double[] Mean(Half[] values, int width, double start, double end)
    {
        var from = Math.Clamp((int)Math.Round(start / Hop), 0, Frames - 1);
        var to = Math.Clamp((int)Math.Round(end / Hop), from + 1, Math.Max(Frames, from + 1));
        var mean = new double[width];
        for (var f = from; f < to; f++)
        {
            for (var i = 0; i < width; i++)
                mean[i] += (double)values[f * width + i] / (to - from);
        }
        return mean;
    }
}
