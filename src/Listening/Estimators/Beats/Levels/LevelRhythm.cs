using System.Numerics.Tensors;
using Harkbook.Listening.Estimators.Beats.Rows;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Levels;

/// <summary>The rhythm of a row of beats: where in the beat low, middle and high sound starts, and whether strong and weak beats take turns.</summary>
internal sealed class LevelRhythm
{
    private const int Regions = StepSound.Regions, Parts = StepSound.Parts;
    private const int Low = 0, Middle = 2, High = 3;
    private const float Slight = 0.05f;

    private readonly List<float[]> rhythms = [], onsets = [], pitches = [];

    /// <param name="frames">Of its beats, rising.</param>
    public LevelRhythm(PulseSound heard, int[] frames, CancellationToken cancellation)
    {
        var gaps = frames.Skip(1).Zip(frames, (b, a) => b - a).ToArray();
        var graph = new RowGraph(frames, gaps.Min(), gaps.Max());
        var sound = new StepSound(graph, heard.Bands, cancellation);
        for (var m = 1; m < graph.Moments; m++)
        {
            var step = graph.FirstAt(m) - 1;
            rhythms.Add(sound.Rhythm(step).ToArray());
            onsets.Add([.. Enumerable.Range(0, Regions).Select(r => rhythms[^1][r * Parts])]);
            pitches.Add(sound.Pitch(step).ToArray());
        }
    }

    /// <summary>The last of the names of <see cref="LevelFeatures.Names"/>.</summary>
    public double[] Values =>
    [
        Part(Low, [2]), Part(Low, [1, 3]), Part(Middle, [2]), Part(Middle, [1, 3]), Part(High, [2]), Part(High, [1, 3]),
        Likeness(onsets, 4) - Likeness(onsets, 2), Turns(Low), Turns(Middle),
        1 - Likeness(pitches, 1), Likeness(pitches, 1) - Likeness(pitches, 2), Likeness(pitches, 2) - Likeness(pitches, 4),
        Likeness(pitches, 4) - Likeness(pitches, 8),
    ];

    /// <summary>How much starts at such quarters of the beat in a region, against what starts on the beat; logarithm.</summary>
    private double Part(int region, int[] quarters)
    {
        var there = quarters.Average(q => rhythms.Average(r => r[region * Parts + q]));
        return Math.Log((there + Slight) / (rhythms.Average(r => r[region * Parts]) + Slight));
    }

    /// <summary>How far every other beat's starts in a region stand over the others', 0 to 1.</summary>
    private double Turns(int region)
    {
        // In stretches of eight beats: where a bar is cut, the turns change over.
        return rhythms.Chunk(8).Where(c => c.Length > 3).Select(c =>
        {
            var (even, odd) = (c.Where((_, k) => k % 2 == 0).Average(r => r[region * Parts]), c.Where((_, k) => k % 2 == 1).Average(r => r[region * Parts]));
            return Math.Abs(even - odd) / (even + odd + Slight);
        }).DefaultIfEmpty(0).Average();
    }

    /// <summary>How like beats are to those so many beats away, 0 to 1.</summary>
    private static double Likeness(List<float[]> beats, int apart) =>
        beats.Skip(apart).Zip(beats, (a, b) => (double)Cosine(a, b)).DefaultIfEmpty(0).Average();

    private static float Cosine(float[] a, float[] b)
    {
        var norm = TensorPrimitives.Norm<float>(a) * TensorPrimitives.Norm<float>(b);
        return norm < 1e-6f ? 0 : TensorPrimitives.Dot<float>(a, b) / norm;
    }
}
