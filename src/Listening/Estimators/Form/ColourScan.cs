using Harkbook.Audio.Signals;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>Measures the harmony and the tone colour of a sound over time.</summary>
internal static class ColourScan
{
    private const double WindowSeconds = 0.186;
    private const double Quietest = 1e-4;
    private static readonly (double Lowest, double Highest) HarmonyHertz = (75, 2000);
    private static readonly (double Lowest, double Highest, int AnOctave) Bands = (60, 8000, 2);

    /// <param name="mono">One channel, at any rate.</param>
    /// <param name="a4">The recording's own reference pitch.</param>
    public static SoundColour Of(ISound mono, Hertz a4, CancellationToken cancellation)
    {
        var reader = new FrameReader(mono, WindowSeconds);
        var bank = new FilterBank(reader.BinHertz, reader.Bins, Bands.Lowest, Math.Min(Bands.Highest, 0.45 * mono.Rate.Hertz), Bands.AnOctave);
        var (magnitudes, bands) = (new float[reader.Bins], new float[bank.Bands]);
        var frames = 1 + (int)(mono.Duration.Value / SoundColour.Hop);
        var (harmony, levels) = (new Half[frames * SoundColour.Classes], new Half[frames * bank.Bands]);
        for (var f = 0; f < frames; f++)
        {
            cancellation.ThrowIfCancellationRequested();
            reader.Read(f * SoundColour.Hop, magnitudes);
            bank.Apply(magnitudes, bands);
            Fill(harmony.AsSpan(f * SoundColour.Classes), PitchClasses(magnitudes, reader.BinHertz, a4));
            Fill(levels.AsSpan(f * bank.Bands), [.. bands.Select(b => Math.Log(Quietest + b))]);
        }
        return new(bank.Bands, harmony, levels);
    }

    private static void Fill(Span<Half> into, double[] values)
    {
        for (var i = 0; i < values.Length; i++)
            into[i] = (Half)values[i];
    }

    private static double[] PitchClasses(float[] magnitudes, double binHertz, Hertz a4)
    {
        var classes = new double[SoundColour.Classes];
        for (var bin = (int)(HarmonyHertz.Lowest / binHertz) + 1; bin < Math.Min(magnitudes.Length, HarmonyHertz.Highest / binHertz); bin++)
        {
            var semitones = SoundColour.Classes * Math.Log2(bin * binHertz / a4.Value);
            var place = (int)Math.Round(semitones) % SoundColour.Classes;
            classes[(place + SoundColour.Classes) % SoundColour.Classes] += magnitudes[bin] * magnitudes[bin];
        }
        var norm = Math.Sqrt(classes.Sum()) + 1e-9;
        return [.. classes.Select(c => Math.Sqrt(c) / norm)];
    }
}
