namespace Harkbook.Listening.Evidence;

/// <summary>Triangles over the logarithm of frequency, at least 1.2 bins wide to each side, each summing to 1: a band is a mean of amplitudes.</summary>
internal sealed class BandFilters
{
    private readonly (int First, float[] Weights)[] triangles;

    /// <param name="window">Samples a frame at <see cref="PulseBands.Rate"/>.</param>
    /// <param name="lowest">The centre of the first band, in Hz.</param>
    public BandFilters(int window, double lowest, int bands, int perOctave)
    {
        Window = window;
        var bin = (double)PulseBands.Rate.Hertz / window;
        triangles = [.. Enumerable.Range(0, bands).Select(k => Triangle(lowest * Math.Pow(2, (double)k / perOctave), 1.0 / perOctave, bin, window / 2))];
    }

    public int Window { get; }

    public void Apply(ReadOnlySpan<float> magnitudes, Span<float> bands)
    {
        for (var band = 0; band < triangles.Length; band++)
        {
            var (first, weights) = triangles[band];
            bands[band] = System.Numerics.Tensors.TensorPrimitives.Dot(magnitudes.Slice(first, weights.Length), weights);
        }
    }

    private static (int First, float[] Weights) Triangle(double centre, double spacing, double bin, int last)
    {
        var reach = Math.Max(spacing, Math.Log2((centre + 1.2 * bin) / centre));
        var all = Enumerable.Range(1, last).Select(k => Math.Max(0, 1 - Math.Abs(Math.Log2(k * bin / centre)) / reach)).ToArray();
        var (from, to, sum) = (Array.FindIndex(all, w => w > 0), Array.FindLastIndex(all, w => w > 0), all.Sum());
        return (from + 1, [.. all[from..(to + 1)].Select(w => (float)(w / sum))]);
    }
}
