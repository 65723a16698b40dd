using System.Numerics.Tensors;
using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>The sound of each beat: what starts in its four quarters in four regions of the spectrum, and the pitches that stand out while it lasts.</summary>
internal sealed class BeatSound
{
    /// <summary>The regions lie between 60, 150, 430, 1700 and 8700 Hz.</summary>
    public const int Regions = 4;

    /// <summary>Quarters of the beat.</summary>
    public const int Parts = 4;

    private const int MomentBands = PulseBands.Moments.Bands;
    private const int Piece = 2048;
    private const int PitchBands = PulseBands.Count - MomentBands;
    private const int BassBands = 24;

    private static readonly int[] Bounds = [0, 8, 17, 29, MomentBands];

    private readonly float[][] starts;
    private readonly float[][] levels;
    private readonly float[][] pitches;

    /// <param name="frames">Where the beats fall, rising; two at least.</param>
    public BeatSound(IPulseBands bands, IReadOnlyList<int> frames, CancellationToken cancellation)
    {
        var flux = Enumerable.Range(0, Regions).Select(_ => new float[bands.Frames]).ToArray();
        var means = frames.Select(_ => new float[PulseBands.Count]).ToArray();
        int End(int k) => Math.Min(bands.Frames, k + 1 < frames.Count ? frames[k + 1] : 2 * frames[k] - frames[k - 1]);
        Read(bands, flux, means, [.. frames.Select((from, k) => (from, End(k)))], cancellation);
        starts = [.. frames.Select((from, k) => Starts(flux, from, End(k)))];
        levels = [.. means.Select(Levels)];
        pitches = [.. means.Select(m => m[MomentBands..])];
        Levelled(starts);
        StandOut(pitches);
    }

    /// <summary>How much starts in a region in a quarter of a beat, of what usually starts there.</summary>
    public float Start(int beat, int region, int part) => starts[beat][region * Parts + part];

    /// <summary>How much sounds in a region during a beat.</summary>
    public float Level(int beat, int region) => levels[beat][region];

    /// <summary>How different the pitches of so many beats from this one on are from those of as many before, 0 to 1.</summary>
    public float Change(int beat, int beats, bool bass)
    {
        var count = bass ? BassBands : PitchBands;
        var (before, after) = (new float[count], new float[count]);
        for (var b = 1; b <= beats; b++)
        {
            TensorPrimitives.Add(before, pitches[Math.Max(0, beat - b)].AsSpan(0, count), before);
            TensorPrimitives.Add(after, pitches[Math.Min(pitches.Length - 1, beat + b - 1)].AsSpan(0, count), after);
        }
        return 1 - Cosine(before, after);
    }

    /// <summary>How like a beat is to those so many beats before and after, 0 to 1: in what starts when, or in its pitches.</summary>
    public float Likeness(int beat, int lag, bool rhythm)
    {
        var rows = rhythm ? starts : pitches;
        var (sum, count) = (0f, 0);
        foreach (var other in new[] { beat - lag, beat + lag }.Where(o => o >= 0 && o < rows.Length))
            (sum, count) = (sum + Cosine(rows[beat], rows[other]), count + 1);
        return count == 0 ? 0 : sum / count;
    }

    /// <summary>Goes once through the beats' own stretch, from a beat before them on: how much rises in each region and frame, and the mean of each band over each beat.</summary>
    private static void Read(IPulseBands bands, float[][] flux, float[][] means, (int From, int To)[] beats, CancellationToken cancellation)
    {
        // A row more than a piece: the last of the piece before stands first.
        var rows = new float[(Piece + 1) * PulseBands.Count];
        var (start, end) = (Math.Max(0, 2 * beats[0].From - beats[0].To), Math.Min(bands.Frames, 2 * beats[^1].To - beats[^1].From));
        for (int first = start, beat = 0; first < end; first += Piece)
        {
            var count = Math.Min(Piece, end - first);
            rows.AsSpan(Piece * PulseBands.Count).CopyTo(rows);
            bands.Fill(first, count, rows.AsMemory(PulseBands.Count), cancellation);
            for (var f = first; f < first + count; f++)
            {
                var now = rows.AsSpan((f - first + 1) * PulseBands.Count, PulseBands.Count);
                if (f > start)
                    Rises(rows.AsSpan((f - first) * PulseBands.Count, MomentBands), now[..MomentBands], flux, f);
                while (beat < beats.Length && f >= beats[beat].To)
                    beat++;
                if (beat < beats.Length && f >= beats[beat].From)
                    TensorPrimitives.MultiplyAdd(now, 1f / (beats[beat].To - beats[beat].From), means[beat], means[beat]);
            }
        }
    }

    private static void Rises(ReadOnlySpan<float> before, ReadOnlySpan<float> now, float[][] flux, int frame)
    {
        for (var r = 0; r < Regions; r++)
        {
            for (var b = Bounds[r]; b < Bounds[r + 1]; b++)
                flux[r][frame] += Math.Max(0, now[b] - before[b]) / (Bounds[r + 1] - Bounds[r]);
        }
    }

    /// <summary>The steepest rise in each quarter of a beat, which reaches an eighth of a beat to either side.</summary>
    private static float[] Starts(float[][] flux, int from, int to)
    {
        var row = new float[Regions * Parts];
        for (var p = 0; p < Parts; p++)
        {
            var middle = from + (to - from) * p / (double)Parts;
            var reach = (to - from) / (2.0 * Parts);
            var (first, last) = (Math.Max(0, (int)Math.Round(middle - reach)), Math.Min(flux[0].Length - 1, (int)Math.Round(middle + reach)));
            for (var r = 0; r < Regions; r++)
                row[r * Parts + p] = TensorPrimitives.Max(flux[r].AsSpan(first, last - first + 1));
        }
        return row;
    }

    private static float[] Levels(float[] means) =>
        [.. Enumerable.Range(0, Regions).Select(r => Mean(means.AsSpan(Bounds[r]..Bounds[r + 1])))];

    /// <summary>Each region of starts is divided by its mean over all beats and quarters.</summary>
    private static void Levelled(float[][] rows)
    {
        for (var r = 0; r < Regions; r++)
        {
            var mean = rows.Average(row => Mean(row.AsSpan(r * Parts, Parts))) + 1e-4f;
            foreach (var row in rows)
                TensorPrimitives.Divide(row.AsSpan(r * Parts, Parts), mean, row.AsSpan(r * Parts, Parts));
        }
    }

    /// <summary>Leaves of each band what it has beyond the mean of its neighbours in pitch.</summary>
    private static void StandOut(float[][] rows)
    {
        const int near = 3;
        foreach (var row in rows)
        {
            var whole = row.ToArray();
            for (var b = 0; b < row.Length; b++)
                row[b] = Math.Max(0, whole[b] - Mean(whole.AsSpan(Math.Max(0, b - near)..Math.Min(row.Length, b + near + 1))));
        }
    }

    private static float Mean(ReadOnlySpan<float> values) => TensorPrimitives.Sum(values) / values.Length;

    private static float Cosine(ReadOnlySpan<float> a, ReadOnlySpan<float> b)
    {
        var norm = TensorPrimitives.Norm(a) * TensorPrimitives.Norm(b);
        return norm < 1e-6f ? 0 : TensorPrimitives.Dot(a, b) / norm;
    }
}
