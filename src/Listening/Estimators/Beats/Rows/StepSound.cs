using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats.Rows;

/// <summary>
/// The sound of each step of a <see cref="RowGraph"/>: what starts in its four quarters in four regions of the spectrum, and the pitches that stand
/// out while it lasts.
/// </summary>
internal sealed class StepSound
{
    /// <summary>The regions lie between 60, 150, 430, 1700 and 8700 Hz.</summary>
    public const int Regions = 4;

    /// <summary>Quarters of the step.</summary>
    public const int Parts = 4;

    public const int Pitches = PulseBands.Count - MomentBands;

    /// <summary>The lowest of the pitches: two octaves from 55 Hz.</summary>
    public const int BassPitches = 24;

    private const int MomentBands = PulseBands.Moments.Bands;
    private const int Starts = Regions * Parts;
    private const int Width = Starts + Regions + Pitches;
    private const int Piece = 2048;
    private const int Near = 3;

    private static readonly int[] Bounds = [0, 8, 17, 29, MomentBands];

    private readonly float[] values;

    public StepSound(RowGraph graph, IPulseBands bands, CancellationToken cancellation)
    {
        values = new float[graph.Steps * Width];
        if (graph.Moments == 0)
            return;
        var (first, last) = (graph.Frame(0), graph.Frame(graph.Moments - 1));
        var (rises, sums) = Read(bands, first, last, cancellation);
        Parallel.For(0, graph.Steps, new ParallelOptions { CancellationToken = cancellation }, s =>
        {
            if (graph.Start(s) is >= 0 and var start)
                Fill(values.AsSpan(s * Width, Width), rises, sums, graph.Frame(start) - first, graph.Frame(graph.End(s)) - first);
        });
        Level();
    }

    /// <summary>How much starts in each region in each quarter, of what usually starts there; shape (regions × quarters).</summary>
    public ReadOnlySpan<float> Rhythm(int step) => values.AsSpan(step * Width, Starts);

    /// <summary>How much sounds in each region.</summary>
    public ReadOnlySpan<float> Levels(int step) => values.AsSpan(step * Width + Starts, Regions);

    /// <summary>How much each pitch stands out among its neighbours.</summary>
    public ReadOnlySpan<float> Pitch(int step) => values.AsSpan(step * Width + Starts + Regions, Pitches);

    /// <summary>How much rises in each region and frame, shape (regions, frames), and the sum of each band up to each frame, shape (frames + 1,
    /// bands).</summary>
    private static (float[][] Rises, float[] Sums) Read(IPulseBands bands, int first, int last, CancellationToken cancellation)
    {
        var frames = last - first + 1;
        var rises = Enumerable.Range(0, Regions).Select(_ => new float[frames]).ToArray();
        var sums = new float[(frames + 1) * PulseBands.Count];
        var rows = new float[(Piece + 1) * PulseBands.Count];
        for (var done = 0; done < frames; done += Piece)
        {
            var count = Math.Min(Piece, frames - done);
            rows.AsSpan(Piece * PulseBands.Count).CopyTo(rows);
            bands.Fill(first + done, count, rows.AsMemory(PulseBands.Count), cancellation);
            for (var f = 0; f < count; f++)
            {
                var now = rows.AsSpan((f + 1) * PulseBands.Count, PulseBands.Count);
                var sum = sums.AsSpan((done + f) * PulseBands.Count, 2 * PulseBands.Count);
                TensorPrimitives.Add(sum[..PulseBands.Count], now, sum[PulseBands.Count..]);
                if (done + f > 0)
                    Rise(rows.AsSpan(f * PulseBands.Count, MomentBands), now[..MomentBands], rises, done + f);
            }
        }
        return (rises, sums);
    }

    private static void Rise(ReadOnlySpan<float> before, ReadOnlySpan<float> now, float[][] rises, int frame)
    {
        for (var r = 0; r < Regions; r++)
        {
            for (var b = Bounds[r]; b < Bounds[r + 1]; b++)
                rises[r][frame] += Math.Max(0, now[b] - before[b]) / (Bounds[r + 1] - Bounds[r]);
        }
    }

    private static void Fill(Span<float> into, float[][] rises, float[] sums, int from, int to)
    {
        for (var p = 0; p < Parts; p++)
        {
            var (middle, reach) = (from + (to - from) * p / (double)Parts, (to - from) / (2.0 * Parts));
            var (a, b) = (Math.Max(0, (int)Math.Round(middle - reach)), Math.Min(rises[0].Length - 1, (int)Math.Round(middle + reach)));
            for (var r = 0; r < Regions; r++)
                into[r * Parts + p] = TensorPrimitives.Max(rises[r].AsSpan(a, b - a + 1));
        }
        Span<float> means = stackalloc float[PulseBands.Count];
        TensorPrimitives.Subtract(sums.AsSpan(to * PulseBands.Count, PulseBands.Count), sums.AsSpan(from * PulseBands.Count, PulseBands.Count), means);
        TensorPrimitives.Multiply(means, 1f / (to - from), means);
        for (var r = 0; r < Regions; r++)
            into[Starts + r] = TensorPrimitives.Sum(means[Bounds[r]..Bounds[r + 1]]) / (Bounds[r + 1] - Bounds[r]);
        StandOut(means[MomentBands..], into[(Starts + Regions)..]);
    }

    /// <summary>Leaves of each band what it has beyond the mean of its neighbours in pitch.</summary>
    private static void StandOut(ReadOnlySpan<float> means, Span<float> into)
    {
        for (var b = 0; b < means.Length; b++)
        {
            var (from, to) = (Math.Max(0, b - Near), Math.Min(means.Length, b + Near + 1));
            into[b] = Math.Max(0, means[b] - TensorPrimitives.Sum(means[from..to]) / (to - from));
        }
    }

    /// <summary>Divides each region of starts by its mean over all steps and quarters.</summary>
    private void Level()
    {
        for (var r = 0; r < Regions; r++)
        {
            var (sum, count) = (0.0, 0);
            for (var s = r * Parts; s < values.Length; s += Width)
                (sum, count) = (sum + TensorPrimitives.Sum(values.AsSpan(s, Parts)), count + Parts);
            var mean = (float)(sum / Math.Max(1, count)) + 1e-4f;
            for (var s = r * Parts; s < values.Length; s += Width)
                TensorPrimitives.Divide(values.AsSpan(s, Parts), mean, values.AsSpan(s, Parts));
        }
    }
}
