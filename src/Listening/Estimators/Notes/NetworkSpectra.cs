using System.Numerics.Tensors;
using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Notes;

/// <summary>
/// What the note network and the line network look at, in planes of frames × <see cref="LogSpectrum.Bins"/>: of the mean of all channels
/// two log spectra (<see cref="NetworkKernels"/>, long windows and short) in decibels, clipped at −80 and scaled so that −80 dB is −0.5 and
/// −20 dB is 0.5; and each bin's place in the stereo picture, from −0.5 (20 dB louder on the left) to 0.5 (on the right), 0 throughout
/// with one channel. The training programs make the same numbers (training/README.md), held equal by tests. One instance serves one caller at a time.
/// </summary>
/// <param name="sound">At <see cref="LogSpectrum.Rate"/>; channels beyond the second have no place.</param>
/// <param name="planes">2, or 3 with the places.</param>
internal sealed class NetworkSpectra(ISound sound, Hertz a4, int planes)
{
    private const float Floor = -80;
    private const float Middle = -50;
    private const float Range = 60;
    private const float DecibelsAcross = 40;
    private const int LevelBlock = 4096;
    private const double LevelAimed = 0.01;

    /// <summary>The power under which a bin is in the middle, so that noise has no place.</summary>
    private const float Quiet = 1e-7f;

    private readonly ISound sound = planes == 2 ? sound.ToMono() : sound;
    private readonly NetworkKernels wide = NetworkKernels.Long(a4);
    private readonly NetworkKernels brief = NetworkKernels.Short(a4);

    /// <summary>What samples are multiplied by first.</summary>
    private readonly float gain = (float)Math.Sqrt(LevelAimed / MeanSquare(sound.ToMono()));

    private float[][] samples = [];

    public int Frames { get; } = 1 + sound.Length / LogSpectrum.HopSamples;

    /// <summary>Fills the values of some frames; frames before the sound or after it hold silence.</summary>
    /// <param name="values">Planes × count × bins.</param>
    public void Fill(int first, int count, float[] values, CancellationToken ct)
    {
        const int Bins = LogSpectrum.Bins;
        var places = planes > 2 && sound.ChannelCount > 1;
        values.AsSpan(2 * count * Bins).Clear();
        var piece = Read(first * LogSpectrum.HopSamples - CentredTransform.Size / 2, count * LogSpectrum.HopSamples + CentredTransform.Size);
        Parallel.For(0, count, new ParallelOptions { CancellationToken = ct }, () => new Transforms(piece), (i, _, transforms) =>
        {
            transforms.Take(CentredTransform.Size / 2 + i * LogSpectrum.HopSamples);
            Scale(wide.Apply(transforms.Mean), values.AsSpan(i * Bins, Bins));
            Scale(brief.Apply(transforms.Mean), values.AsSpan((count + i) * Bins, Bins));
            if (places)
                Place(wide.Apply(transforms.OfChannel(0)), wide.Apply(transforms.OfChannel(1)), values.AsSpan((2 * count + i) * Bins, Bins));
            return transforms;
        }, _ => { });
    }

    /// <summary>The samples of all channels, in the same arrays while stretches are of one length.</summary>
    private float[][] Read(int start, int length)
    {
        if (samples.Length == 0 || samples[0].Length != length)
            samples = [.. Enumerable.Range(0, sound.ChannelCount).Select(_ => new float[length])];
        for (var c = 0; c < samples.Length; c++)
            sound.Read(c, start, samples[c]);
        return samples;
    }

    /// <summary>The decibels that a value of a spectrum stands for.</summary>
    public static float Decibels(float value) => value * Range + Middle;

    private void Scale(float[] magnitudes, Span<float> values)
    {
        for (var i = 0; i < magnitudes.Length; i++)
            values[i] = (Math.Max(Floor, 20 * MathF.Log10(magnitudes[i] * gain + 1e-12f)) - Middle) / Range;
    }

    private void Place(float[] left, float[] right, Span<float> values)
    {
        var power = gain * gain;
        for (var b = 0; b < values.Length; b++)
            values[b] = Math.Clamp(10 * MathF.Log10((right[b] * right[b] * power + Quiet) / (left[b] * left[b] * power + Quiet)) / DecibelsAcross, -0.5f, 0.5f);
    }

    /// <summary>The level of the loud tenth of the sound's blocks, so that silence about a song doesn't count.</summary>
    private static double MeanSquare(ISound mono)
    {
        var blocks = Math.Max(1, mono.Length / LevelBlock);
        var block = new float[Math.Min(LevelBlock, mono.Length)];
        var squares = Enumerable.Range(0, blocks)
            .Select(b => MeanSquareOf(mono, b * LevelBlock, block))
            .Order().ToList();
        var place = 0.9 * (blocks - 1);
        var below = (int)place;
        var level = squares[below] + (place - below) * (squares[Math.Min(below + 1, blocks - 1)] - squares[below]);
        return level > 0 ? level : 1;
    }

    private static double MeanSquareOf(ISound mono, int start, float[] block)
    {
        mono.Read(0, start, block);
        return block.Length == 0 ? 0 : (double)TensorPrimitives.SumOfSquares(block) / block.Length;
    }

    /// <summary>The transforms of each channel about one sample, and of their mean. One instance serves one thread.</summary>
    private sealed class Transforms(float[][] channels)
    {
        private readonly CentredTransform[] ofChannels = [.. channels.Select(_ => new CentredTransform())];

        public CentredTransform Mean { get; } = new();

        public CentredTransform OfChannel(int channel) => ofChannels[channel];

        public void Take(int centre)
        {
            for (var c = 0; c < ofChannels.Length; c++)
                ofChannels[c].Take(channels[c], centre);
            Mean.TakeMean(ofChannels);
        }
    }
}
