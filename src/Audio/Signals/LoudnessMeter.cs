using Harkbook.Units;

namespace Harkbook.Audio.Signals;

/// <summary>Measures loudness and true peak as ITU-R BS.1770-4, annexes 1 and 2; of sound in memory, or of blocks that come one after another.</summary>
public static class LoudnessMeter
{
    private const double AbsoluteGate = -70, RelativeGate = -10, Offset = -0.691;
    private const double BlockSeconds = 0.4, HopSeconds = 0.1;

    /// <summary>The integrated loudness; null when the signal is silent (all below −70 LUFS) or shorter than 0.4 s.</summary>
    /// <remarks>Every channel has weight 1: right for mono and stereo. Surround channels would weigh 1.41 in the standard.</remarks>
    public static Loudness? Integrated(Signal signal) => Integrated(signal.Rate, signal.Blocks());

    /// <param name="blocks">An array a channel each.</param>
    public static Loudness? Integrated(SampleRate rate, IEnumerable<float[][]> blocks)
    {
        var powers = BlockPowers(rate, blocks).Where(p => Lufs(p) > AbsoluteGate).ToArray();
        if (powers.Length == 0)
            return null;
        var gate = Lufs(powers.Average()) + RelativeGate;
        return Loudness.FromLufs(Lufs(powers.Where(p => Lufs(p) > gate).Average()));
    }

    /// <summary>The highest level between the samples too, in dB of full scale (dBTP); −∞ for digital silence.</summary>
    public static double TruePeak(Signal signal) => TruePeak(signal.Rate, signal.Blocks());

    /// <param name="blocks">An array a channel each.</param>
    public static double TruePeak(SampleRate rate, IEnumerable<float[][]> blocks)
    {
        PeakRun[] runs = [];
        foreach (var block in blocks)
        {
            if (runs.Length == 0)
                runs = [.. block.Select(_ => new PeakRun(rate))];
            for (var c = 0; c < runs.Length; c++)
                runs[c].Take(block[c]);
        }
        return 20 * Math.Log10(runs.Select(r => r.Finish()).DefaultIfEmpty(0).Max());
    }

    private static double Lufs(double power) => Offset + 10 * Math.Log10(power);

    private static double[] BlockPowers(SampleRate rate, IEnumerable<float[][]> blocks)
    {
        StepRun[] runs = [];
        foreach (var block in blocks)
        {
            if (runs.Length == 0)
                runs = [.. block.Select(_ => new StepRun(rate, rate.SamplesIn(Seconds.FromSeconds(HopSeconds))))];
            for (var c = 0; c < runs.Length; c++)
                runs[c].Take(block[c]);
        }
        double[] steps = runs.Length == 0 ? [] : [.. Enumerable.Range(0, runs[0].Powers.Count).Select(s => runs.Sum(r => r.Powers[s]))];
        var perBlock = (int)Math.Round(BlockSeconds / HopSeconds);
        return [.. Enumerable.Range(0, Math.Max(0, steps.Length - perBlock + 1)).Select(b => steps.AsSpan(b, perBlock).ToArray().Average())];
    }

    /// <summary>The weighted power of each whole step of one channel.</summary>
    private sealed class StepRun(SampleRate rate, int hop)
    {
        private readonly BiquadRun head = new(KWeighting.Head(rate)), lowCut = new(KWeighting.LowCut(rate));
        private double sum;
        private int taken;

        public List<double> Powers { get; } = [];

        public void Take(float[] block)
        {
            var weighted = block.AsSpan().ToArray();
            head.Run(weighted);
            lowCut.Run(weighted);
            foreach (var sample in weighted)
            {
                sum += (double)sample * sample;
                if (++taken < hop)
                    continue;
                Powers.Add(sum / hop);
                (sum, taken) = (0, 0);
            }
        }
    }

    /// <summary>The highest level of one channel at four times its rate, as annex 2 asks; rates from 192 kHz are fine enough as they are.</summary>
    private sealed class PeakRun(SampleRate rate)
    {
        private readonly ResamplingStream? finer = rate.Hertz >= 192_000 ? null : new(rate, SampleRate.FromHertz(4 * rate.Hertz));
        private float peak;

        public void Take(float[] block)
        {
            peak = Math.Max(peak, Highest(block));
            if (finer is not null)
                peak = Math.Max(peak, Highest(finer.Push(block)));
        }

        public double Finish() => finer is null ? peak : Math.Max(peak, Highest(finer.Finish()));

        private static float Highest(ReadOnlySpan<float> samples)
        {
            var highest = 0f;
            foreach (var sample in samples)
                highest = Math.Max(highest, Math.Abs(sample));
            return highest;
        }
    }
}
