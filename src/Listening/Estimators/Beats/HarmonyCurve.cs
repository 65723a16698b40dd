using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// What the harmony sounds like over time, folded into one octave of 24 quarter tones (so that it needs no reference pitch),
/// summed so that the mean of any stretch is quick to read.
/// </summary>
internal sealed class HarmonyCurve
{
    public const int Steps = 24;
    private const double WindowSeconds = 0.186;
    private const double FrameRate = 20;
    private readonly double[][] sums;

    private HarmonyCurve(double[][] sums) => this.sums = sums;

    /// <summary>The harmony of the whole range of the guitar, and that of its bass notes alone.</summary>
    public static (HarmonyCurve Whole, HarmonyCurve Bass) Of(Signal mono, CancellationToken cancellation)
    {
        var reader = new FrameReader(mono, WindowSeconds);
        var (steps, bassSteps) = (StepOfBin(reader, 75, 2100), StepOfBin(reader, 60, 220));
        var magnitudes = new float[reader.Bins];
        var frames = 1 + (int)(mono.Duration.Value * FrameRate);
        var (whole, bass) = (new double[frames + 1][], new double[frames + 1][]);
        (whole[0], bass[0]) = (new double[Steps], new double[Steps]);
        for (var f = 0; f < frames; f++)
        {
            cancellation.ThrowIfCancellationRequested();
            reader.Read(f / FrameRate, magnitudes);
            whole[f + 1] = Add(whole[f], magnitudes, steps);
            bass[f + 1] = Add(bass[f], magnitudes, bassSteps);
        }
        return (new(whole), new(bass));
    }

    /// <summary>0 (the harmony stays) to 1 (nothing in common): the cosine distance between the stretch before and the stretch after a time.</summary>
    public double Change(double time, double width)
    {
        var before = Mean(time - width, time);
        var after = Mean(time + 0.03, time + width);
        double dot = 0, a = 1e-12, b = 1e-12;
        for (var s = 0; s < Steps; s++)
        {
            dot += before[s] * after[s];
            a += before[s] * before[s];
            b += after[s] * after[s];
        }
        return Math.Clamp(1 - dot / Math.Sqrt(a * b), 0, 1);
    }

    /// <summary>Shape (24): the mean strength of each quarter tone from one time to another.</summary>
    public double[] Mean(double start, double end)
    {
        var from = Math.Clamp((int)Math.Round(start * FrameRate), 0, sums.Length - 2);
        var to = Math.Clamp((int)Math.Round(end * FrameRate), from + 1, sums.Length - 1);
        var mean = new double[Steps];
        for (var s = 0; s < Steps; s++)
            mean[s] = (sums[to][s] - sums[from][s]) / (to - from);
        return mean;
    }

    private static int[] StepOfBin(FrameReader reader, double lowest, double highest)
    {
        var steps = new int[reader.Bins];
        for (var bin = 0; bin < steps.Length; bin++)
        {
            var hertz = bin * reader.BinHertz;
            steps[bin] = hertz < lowest || hertz > highest ? -1 : (int)Math.Round(Steps * Math.Log2(hertz / 440) + 100 * Steps) % Steps;
        }
        return steps;
    }

    private static double[] Add(double[] sum, float[] magnitudes, int[] step)
    {
        var frame = new double[Steps];
        for (var bin = 0; bin < step.Length; bin++)
        {
            if (step[bin] >= 0)
                frame[step[bin]] += magnitudes[bin] * magnitudes[bin];
        }
        var next = new double[Steps];
        var norm = Math.Sqrt(frame.Sum()) + 1e-4;
        for (var s = 0; s < Steps; s++)
            next[s] = sum[s] + Math.Sqrt(frame[s]) / norm;
        return next;
    }
}
