using System.Numerics.Tensors;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// How loud each pitch is in each frame, on a logarithmic scale from 0 (nothing, 60 dB down) to about 3 (as loud as the
/// recording's loud notes). First the long spectrum is explained by note templates; then the shorter ones, by those notes that
/// the long one found nearby: the first tells which pitches sound, the others when.
/// </summary>
internal sealed class NoteSalience
{
    /// <summary>Pitches of silence below MIDI 36 and above 96, so that relatives of every pitch can be looked up.</summary>
    public const int PitchMargin = 24;

    /// <summary>Frames repeated before the start and after the end.</summary>
    public const int FrameMargin = 16;

    private const double Power = 0.6;
    private const int LongRounds = 25;
    private const int ShortRounds = 12;
    private const int Reach = 8;

    private NoteSalience(float[][] sustained, float[][] rising, float[][] prompt) => (Sustained, Rising, Prompt) = (sustained, rising, prompt);

    /// <summary>(Frames + 2 margins) × (pitches + 2 margins), from the long spectrum.</summary>
    public float[][] Sustained { get; }

    /// <summary>The same from the middle spectrum.</summary>
    public float[][] Rising { get; }

    /// <summary>The same from the short spectrum.</summary>
    public float[][] Prompt { get; }

    public static NoteSalience Of(LogSpectrum spectrum, Hertz a4, CancellationToken ct)
    {
        var parallel = new ParallelOptions { CancellationToken = ct };
        var frames = spectrum.Long.Length;
        var longer = new SparseDecomposition(HarmonicTemplates.Of(WindowKernels.Long(a4), a4, Power).Atoms, LongRounds);
        var sustained = new float[frames][];
        Parallel.For(0, frames, parallel, f => sustained[f] = longer.Explain(Compressed(spectrum.Long[f])));
        var rising = Refined(sustained, spectrum.Middle, WindowKernels.Middle(a4), a4, parallel);
        var prompt = Refined(sustained, spectrum.Short, WindowKernels.Short(a4), a4, parallel);
        return new(Levels(sustained), Levels(rising), Levels(prompt));
    }

    private static float[][] Refined(float[][] sustained, float[][] spectrum, WindowKernels kernels, Hertz a4, ParallelOptions parallel)
    {
        var decomposition = new SparseDecomposition(HarmonicTemplates.Of(kernels, a4, Power).Atoms, ShortRounds);
        var refined = new float[sustained.Length][];
        Parallel.For(0, refined.Length, parallel, f =>
        {
            refined[f] = Nearby(sustained, f);
            decomposition.Refine(refined[f], Compressed(spectrum[f]));
        });
        return refined;
    }

    private static float[] Compressed(float[] spectrum)
    {
        var compressed = new float[spectrum.Length];
        TensorPrimitives.Pow<float>(spectrum, (float)Power, compressed);
        return compressed;
    }

    private static float[] Nearby(float[][] weights, int frame)
    {
        var most = new float[weights[frame].Length];
        for (var f = Math.Max(0, frame - Reach); f <= Math.Min(weights.Length - 1, frame + Reach); f += 2)
            TensorPrimitives.Max(most, weights[f], most);
        return most;
    }

    private static float[][] Levels(float[][] weights)
    {
        var notes = weights.Select(PerPitch).ToArray();
        var peaks = notes.Select(n => n.Max()).Order().ToArray();
        var loud = peaks[(int)(0.95 * (peaks.Length - 1))] + 1e-9f;
        var levels = new float[notes.Length + 2 * FrameMargin][];
        for (var f = 0; f < levels.Length; f++)
        {
            var source = notes[Math.Clamp(f - FrameMargin, 0, notes.Length - 1)];
            levels[f] = new float[HarmonicTemplates.Pitches + 2 * PitchMargin];
            for (var p = 0; p < source.Length; p++)
                levels[f][p + PitchMargin] = MathF.Log10(1 + 1000 * source[p] / loud);
        }
        return levels;
    }

    private static float[] PerPitch(float[] weights)
    {
        var pitches = new float[HarmonicTemplates.Pitches];
        for (var i = 0; i < weights.Length; i++)
            pitches[i / HarmonicTemplates.PerPitch] += weights[i];
        return pitches;
    }
}
