namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Evidence without trained weights: how much new sound starts in each frame (spectral flux over log magnitudes, S. Böck and G. Widmer,
/// "Maximum filter vibrato suppression for onset detection", DAFx 2013), bass counted again towards downbeats. Serves where the
/// network can't run, and as its yardstick.
/// </summary>
internal static class FluxPulse
{
    private const int BassBands = 9;
    private const int MomentBands = 44;
    private const int Local = 100;

    public static PulseEvidence Weigh(float[] bands)
    {
        var frames = bands.Length / PulseBands.Count;
        var evidence = new PulseEvidence(frames);
        var (all, bass) = (Levelled(Flux(bands, frames, MomentBands)), Levelled(Flux(bands, frames, BassBands)));
        for (var f = 0; f < frames; f++)
        {
            evidence.Beat[f] = Chance(1.2 * all[f] + 0.4 * bass[f] - 4);
            evidence.Downbeat[f] = evidence.Beat[f] * Chance(0.6 * bass[f] - 1.5);
            evidence.Forget(f);
        }
        return evidence;
    }

    /// <summary>The last frame in which something clearly starts, and two more; 0 where nothing does.</summary>
    public static int LastOnset(float[] bands)
    {
        var flux = Flux(bands, bands.Length / PulseBands.Count, MomentBands);
        // A recording that is cut off ends in a click that nobody played.
        var inside = flux.AsSpan(0, Math.Max(0, flux.Length - 3));
        var clear = inside.Length == 0 ? 0 : 0.1f * System.Numerics.Tensors.TensorPrimitives.Max(inside);
        return Math.Max(0, Array.FindLastIndex(inside.ToArray(), x => x > clear)) + 2;
    }

    /// <summary>How much starts in each frame, in root mean squares of its surroundings.</summary>
    public static double[] Onsets(float[] bands) => Levelled(Flux(bands, bands.Length / PulseBands.Count, MomentBands));

    private static float[] Flux(float[] bands, int frames, int upTo)
    {
        var flux = new float[frames];
        for (var f = 1; f < frames; f++)
        {
            var now = bands.AsSpan(f * PulseBands.Count, upTo);
            var before = bands.AsSpan((f - 1) * PulseBands.Count, upTo);
            for (var b = 0; b < upTo; b++)
                flux[f] += Math.Max(0, now[b] - Math.Max(before[b], Math.Max(before[Math.Max(0, b - 1)], before[Math.Min(upTo - 1, b + 1)])));
        }
        return flux;
    }

    /// <summary>Divided by the root mean square of the two seconds on either side.</summary>
    private static double[] Levelled(float[] flux)
    {
        var sums = new double[flux.Length + 1];
        for (var f = 0; f < flux.Length; f++)
            sums[f + 1] = sums[f] + (double)flux[f] * flux[f];
        return [.. flux.Select((x, f) =>
        {
            var (from, to) = (Math.Max(0, f - Local), Math.Min(flux.Length, f + Local + 1));
            return x / Math.Sqrt((sums[to] - sums[from]) / (to - from) + 1e-6);
        })];
    }

    private static float Chance(double logOdds) => (float)(1 / (1 + Math.Exp(-logOdds)));
}
