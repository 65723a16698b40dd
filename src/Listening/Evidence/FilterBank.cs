namespace Harkbook.Listening.Evidence;

/// <summary>
/// Triangular filters spaced evenly in pitch, as in S. Böck and G. Widmer, "Maximum filter vibrato suppression
/// for onset detection", DAFx 2013. Where the spectrum is too coarse for the spacing, neighbours that would
/// share a bin are merged.
/// </summary>
internal sealed class FilterBank
{
    private readonly (int First, float[] Weights)[] filters;

    public FilterBank(double binHertz, int bins, double lowest, double highest, int perOctave)
    {
        var centres = Centres(binHertz, bins, lowest, highest, perOctave);
        filters = new (int, float[])[Math.Max(0, centres.Count - 2)];
        Hertz = new double[filters.Length];
        for (var band = 0; band < filters.Length; band++)
        {
            filters[band] = Triangle(centres[band], centres[band + 1], centres[band + 2]);
            Hertz[band] = centres[band + 1] * binHertz;
        }
    }

    public int Bands => filters.Length;

    /// <summary>The centre of each band in Hz.</summary>
    public double[] Hertz { get; }

    public void Apply(ReadOnlySpan<float> magnitudes, Span<float> bands)
    {
        for (var band = 0; band < filters.Length; band++)
        {
            var (first, weights) = filters[band];
            var sum = 0f;
            for (var i = 0; i < weights.Length; i++)
                sum += weights[i] * magnitudes[first + i];
            bands[band] = sum;
        }
    }

    private static List<int> Centres(double binHertz, int bins, double lowest, double highest, int perOctave)
    {
        var centres = new List<int>();
        for (var hertz = lowest; hertz <= highest; hertz *= Math.Pow(2, 1.0 / perOctave))
        {
            var bin = (int)Math.Round(hertz / binHertz);
            if (bin >= 1 && bin < bins && (centres.Count == 0 || bin > centres[^1]))
                centres.Add(bin);
        }
        return centres;
    }

    private static (int First, float[] Weights) Triangle(int left, int centre, int right)
    {
        var weights = new float[right - left - 1];
        for (var i = 0; i < weights.Length; i++)
        {
            var bin = left + 1 + i;
            weights[i] = bin <= centre ? (bin - left) / (float)(centre - left) : (right - bin) / (float)(right - centre);
        }
        return (left + 1, weights);
    }
}
