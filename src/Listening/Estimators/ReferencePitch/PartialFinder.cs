using Harkbook.Audio.Signals;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>
/// Finds steady low partials. Peaks are placed between bins by a parabola through log magnitudes; overtones of lower peaks
/// are left out, because the fifth and seventh stand flat of any semitone and those of stiff strings sharp;
/// peaks that don't last into the next frame (glides, vibrato, noise) count little.
/// </summary>
internal sealed class PartialFinder(ReferencePitchOptions options)
{
    private const int WindowSamples = 4096;
    private const int FftSize = 16384;
    private const int Hop = 1024;
    private const double SteadyCents = 6;

    private static readonly SampleRate Rate = SampleRate.FromHertz(11_025);
    private static readonly double BinHertz = (double)Rate.Hertz / FftSize;

    public List<Partial> Find(ISound mono, CancellationToken ct)
    {
        var low = mono.At(Rate);
        var frames = new (float Loudest, Partial[] Peaks)[1 + low.Length / Hop];
        Spectrogram.Visit(low, FftSize, Hop, Window.Hann(WindowSamples), (f, bins) => frames[f] = Peaks(bins, Rate.TimeOf(Hop) * f), ct);
        var all = new List<Partial>(frames.Sum(f => f.Peaks.Length));
        var loudest = frames.Max(f => f.Loudest);
        List<Partial> before = [];
        foreach (var (_, peaks) in frames)
        {
            var now = WithoutOvertones(Weighed(peaks, loudest));
            all.AddRange(now.Select(p => p with { Weight = p.Weight * (IsSteady(p, before) ? 1 : 0.1) }));
            before = now;
        }
        return all;
    }

    /// <summary>The level of the loudest bin and every peak that may count for something, with its level as its weight.</summary>
    private (float Loudest, Partial[] Peaks) Peaks(ReadOnlySpan<float> bins, Seconds time)
    {
        var (first, last) = ((int)(options.Lowest.Value / BinHertz), Math.Min(bins.Length - 2, (int)(options.Highest.Value / BinHertz)));
        var loudest = System.Numerics.Tensors.TensorPrimitives.Max(bins[first..last]);
        var floor = loudest * Math.Pow(10, -options.RangeDecibels / 20);
        var peaks = new List<Partial>();
        for (var k = Math.Max(2, first); k < last; k++)
        {
            if (bins[k] <= floor || bins[k] < bins[k - 1] || bins[k] <= bins[k + 1])
                continue;
            var (a, b, c) = (Math.Log(bins[k - 1] + 1e-12), Math.Log(bins[k]), Math.Log(bins[k + 1] + 1e-12));
            var hertz = (k + (a - c) / (2 * (a - 2 * b + c))) * BinHertz;
            peaks.Add(new(time.Value, hertz, bins[k]));
        }
        return (loudest, [.. peaks]);
    }

    /// <summary>The peaks that count beside the loudest of the recording, weighed by it.</summary>
    private static List<Partial> Weighed(Partial[] peaks, float loudest) =>
        [.. peaks.Where(p => p.Weight > loudest * 1e-3).Select(p => p with { Weight = Math.Sqrt((float)p.Weight / loudest) })];

    private static List<Partial> WithoutOvertones(List<Partial> peaks) =>
        [.. peaks.Where(p => !peaks.Any(lower => lower.Hertz < p.Hertz * 0.6 && lower.Weight > 0.3 * p.Weight && IsOvertone(p, lower)))];

    private static bool IsOvertone(Partial peak, Partial lower)
    {
        var n = Math.Round(peak.Hertz / lower.Hertz);
        return n is >= 3 and <= 16 && Math.Abs(1200 * Math.Log2(peak.Hertz / (n * lower.Hertz))) < 25;
    }

    private static bool IsSteady(Partial peak, List<Partial> before) =>
        before.Any(b => Math.Abs(1200 * Math.Log2(peak.Hertz / b.Hertz)) < SteadyCents);
}
