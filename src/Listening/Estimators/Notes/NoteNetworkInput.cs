using System.Numerics.Tensors;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// What the note network looks at: two log spectra (<see cref="NetworkKernels"/>, long windows and short) in decibels,
/// clipped at −80 and scaled so that −80 dB is −0.5 and −20 dB is 0.5; shape 2 × frames × <see cref="LogSpectrum.Bins"/>.
/// The training program makes the same numbers (training/README.md), held equal by a test. One instance serves one thread at a time.
/// </summary>
/// <param name="sound">One channel at <see cref="LogSpectrum.Rate"/>.</param>
internal sealed class NoteNetworkInput(ISound sound, Hertz a4)
{
    private const float Floor = -80;
    private const float Middle = -50;
    private const float Range = 60;
    private const int LevelBlock = 4096;
    private const double LevelAimed = 0.01;

    private readonly NetworkKernels wide = NetworkKernels.Long(a4);
    private readonly NetworkKernels brief = NetworkKernels.Short(a4);
    /// <summary>What samples are multiplied by first.</summary>
    public float Gain { get; } = (float)Math.Sqrt(LevelAimed / MeanSquare(sound));

    private float[] samples = [];

    public int Frames { get; } = 1 + sound.Length / LogSpectrum.HopSamples;

    /// <summary>Fills the values of some frames; frames before the sound or after it hold silence.</summary>
    /// <param name="values">2 × count × bins.</param>
    public void Fill(int first, int count, float[] values, CancellationToken ct)
    {
        const int Bins = LogSpectrum.Bins;
        if (samples.Length < count * LogSpectrum.HopSamples + CentredTransform.Size)
            samples = new float[count * LogSpectrum.HopSamples + CentredTransform.Size];
        sound.Read(0, first * LogSpectrum.HopSamples - CentredTransform.Size / 2, samples);
        Parallel.For(0, count, new ParallelOptions { CancellationToken = ct }, () => new CentredTransform(), (i, _, transform) =>
        {
            transform.Take(samples, CentredTransform.Size / 2 + i * LogSpectrum.HopSamples);
            Scale(wide.Apply(transform), values.AsSpan(i * Bins, Bins));
            Scale(brief.Apply(transform), values.AsSpan((count + i) * Bins, Bins));
            return transform;
        }, _ => { });
    }

    /// <summary>The decibels that a value stands for.</summary>
    public static float Decibels(float value) => value * Range + Middle;

    private void Scale(float[] magnitudes, Span<float> values)
    {
        for (var i = 0; i < magnitudes.Length; i++)
            values[i] = (Math.Max(Floor, 20 * MathF.Log10(magnitudes[i] * Gain + 1e-12f)) - Middle) / Range;
    }

    /// <summary>The level of the loud tenth of the sound's blocks, so that silence about a song doesn't count.</summary>
    private static double MeanSquare(ISound sound)
    {
        var blocks = Math.Max(1, sound.Length / LevelBlock);
        var block = new float[Math.Min(LevelBlock, sound.Length)];
        var squares = Enumerable.Range(0, blocks)
            .Select(b => MeanSquareOf(sound, b * LevelBlock, block))
            .Order().ToList();
        var place = 0.9 * (blocks - 1);
        var below = (int)place;
        var level = squares[below] + (place - below) * (squares[Math.Min(below + 1, blocks - 1)] - squares[below]);
        return level > 0 ? level : 1;
    }

    private static double MeanSquareOf(ISound sound, int start, float[] block)
    {
        sound.Read(0, start, block);
        return block.Length == 0 ? 0 : (double)TensorPrimitives.SumOfSquares(block) / block.Length;
    }
}
