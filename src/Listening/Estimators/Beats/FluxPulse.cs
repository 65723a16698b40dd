using Harkbook.Listening.Evidence;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// Evidence without trained weights: how much new sound starts in each frame (spectral flux over log magnitudes, S. Böck and G. Widmer,
/// "Maximum filter vibrato suppression for onset detection", DAFx 2013), bass counted again towards downbeats. Serves where the
/// network can't run, and as its yardstick.
/// </summary>
internal sealed class FluxPulse
{
    private const int BassBands = 9;
    private const int Piece = 2048;
    private const int Local = 100;

    /// <summary>How much starts in each frame, in all bands that tell moments apart and in the lowest.</summary>
    private readonly float[] all, bass;

    private FluxPulse(float[] all, float[] bass) => (this.all, this.bass) = (all, bass);

    public static FluxPulse Of(IPulseBands bands, CancellationToken cancellation)
    {
        const int Width = PulseBands.Moments.Bands;
        var (all, bass) = (new float[bands.Frames], new float[bands.Frames]);
        // A row more than a piece: the last of the piece before stands first.
        var rows = new float[(Piece + 1) * Width];
        for (var first = 0; first < bands.Frames; first += Piece)
        {
            var frames = Math.Min(Piece, bands.Frames - first);
            rows.AsSpan(Piece * Width).CopyTo(rows);
            bands.FillMoments(first, frames, rows.AsMemory(Width), cancellation);
            for (var f = first == 0 ? 1 : 0; f < frames; f++)
            {
                var before = rows.AsSpan(f * Width, Width);
                var now = rows.AsSpan((f + 1) * Width, Width);
                (all[first + f], bass[first + f]) = (Flux(before, now), Flux(before[..BassBands], now[..BassBands]));
            }
        }
        return new(all, bass);
    }

    public PulseEvidence Weigh()
    {
        var evidence = new PulseEvidence(all.Length);
        var (onsets, low) = (Onsets(), Levelled(bass));
        for (var f = 0; f < evidence.Frames; f++)
        {
            evidence.Beat[f] = Chance(1.2 * onsets[f] + 0.4 * low[f] - 4);
            evidence.Downbeat[f] = evidence.Beat[f] * Chance(0.6 * low[f] - 1.5);
            evidence.Forget(f);
        }
        return evidence;
    }

    /// <summary>The last frame in which something clearly starts, and two more; 0 where nothing does.</summary>
    public int LastOnset()
    {
        // A recording that is cut off ends in a click that nobody played.
        var inside = all.AsSpan(0, Math.Max(0, all.Length - 3));
        var clear = inside.Length == 0 ? 0 : 0.1f * System.Numerics.Tensors.TensorPrimitives.Max(inside);
        return Math.Max(0, Array.FindLastIndex(inside.ToArray(), x => x > clear)) + 2;
    }

    /// <summary>How much starts in each frame, in root mean squares of its surroundings.</summary>
    public double[] Onsets() => Levelled(all);

    private static float Flux(ReadOnlySpan<float> before, ReadOnlySpan<float> now)
    {
        var (flux, last) = (0f, now.Length - 1);
        for (var b = 0; b < now.Length; b++)
            flux += Math.Max(0, now[b] - Math.Max(before[b], Math.Max(before[Math.Max(0, b - 1)], before[Math.Min(last, b + 1)])));
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

    private static float Chance(double logOdds) => (float)LogOdds.Chance(logOdds);
}
