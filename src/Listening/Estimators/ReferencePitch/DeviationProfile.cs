using Harkbook.Units;

namespace Harkbook.Listening.Estimators.ReferencePitch;

/// <summary>How much partial weight lies at each deviation from −50 to 49 cents, smoothed by a bell on the circle.</summary>
internal sealed class DeviationProfile
{
    private const int Steps = 100;

    private readonly List<Partial> partials;
    private readonly double tolerance;
    private readonly double[] heights = new double[Steps];

    public DeviationProfile(List<Partial> partials, Cents tolerance)
    {
        this.partials = partials;
        this.tolerance = tolerance.Value;
        var counts = new double[Steps];
        foreach (var partial in partials)
            counts[((int)Math.Round(partial.Deviation) + Steps + 50) % Steps] += partial.Weight;
        for (var i = 0; i < Steps; i++)
        {
            for (var j = 0; j < Steps; j++)
                heights[i] += counts[j] * Bell(i - j);
        }
    }

    /// <summary>Cents of the profile's maxima, the highest first.</summary>
    public IReadOnlyList<int> Peaks() =>
        [.. Enumerable.Range(0, Steps)
            .Where(i => heights[i] >= heights[(i + 1) % Steps] && heights[i] > heights[(i + Steps - 1) % Steps])
            .DefaultIfEmpty(50)
            .OrderByDescending(i => heights[i])
            .Select(i => i - 50)];

    public double Height(int cents) => heights[cents + 50];

    /// <summary>The exact place that a peak's own partials gather about.</summary>
    public double Centre(double peak)
    {
        var cents = partials.Select(p => p.Deviation).ToArray();
        var weights = new double[cents.Length];
        for (var round = 0; round < 5; round++)
        {
            for (var i = 0; i < weights.Length; i++)
                weights[i] = partials[i].Weight * Bell(cents[i] - peak);
            peak = CircularCents.Mean(cents, weights).Mean.Value;
        }
        return peak;
    }

    private double Bell(double cents) => Math.Exp(-0.5 * Math.Pow(CircularCents.Wrapped(cents) / tolerance, 2));
}
