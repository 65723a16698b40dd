using System.Collections.Immutable;
using Harkbook.Listening.Evidence;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>What each bar sounds like: the harmony of each of its quarters (12 pitch classes) and its tone colour, in one vector.</summary>
internal sealed class BarSound
{
    private const int Parts = 4;

    private BarSound(double[] starts, double[][] harmony, double[][] colour, double[][] texture, SungEntry? entry) =>
        (Starts, Harmony, Colour, Texture, Entry) = (starts, harmony, colour, texture, entry);

    /// <summary>Shape (bars + 1): where each bar starts, and where the last ends, in seconds.</summary>
    public double[] Starts { get; }

    /// <summary>Shape (bars, 48).</summary>
    public double[][] Harmony { get; }

    /// <summary>Shape (bars, bands): natural logarithms of band levels.</summary>
    public double[][] Colour { get; }

    /// <summary>As <see cref="BarTexture"/> has it.</summary>
    public double[][] Texture { get; }

    /// <summary>Null where nobody sings, or somebody does from the start.</summary>
    public SungEntry? Entry { get; }

    public int Bars => Harmony.Length;

    /// <summary>The bar whose start lies nearest to a time.</summary>
    public int BarAt(Seconds time) => Enumerable.Range(0, Starts.Length).MinBy(b => Math.Abs(Starts[b] - time.Value));

    /// <param name="beats">Felt beats, rising; one at least.</param>
    public static BarSound Of(SoundColour colour, ImmutableArray<HeardBeat> beats, ImmutableArray<HeardNote> notes, HeardLines lines)
    {
        var starts = StartsOf(beats);
        var bars = starts.Zip(starts.Skip(1)).ToArray();
        return new(
            starts,
            [.. bars.Select(b => Enumerable.Range(0, Parts).SelectMany(p => Unit(colour.HarmonyWithin(Part(b, p), Part(b, p + 1)))).ToArray())],
            [.. bars.Select(b => colour.LevelsWithin(b.First, b.Second))],
            BarTexture.Of(starts, notes, lines),
            SungEntry.Of(starts, lines.Of(LineKind.Voice)));
    }

    private static double Part((double First, double Second) bar, int part) => bar.First + (bar.Second - bar.First) * part / Parts;

    /// <summary>The downbeats, with the pick-up counted to the first bar, and the end of the last bar.</summary>
    private static double[] StartsOf(ImmutableArray<HeardBeat> beats)
    {
        var starts = beats.Where(b => b.PositionInBar == 1).Select(b => b.Time.Value).ToList();
        var last = beats[^1].Time.Value + (beats.Length > 1 ? beats[^1].Time.Value - beats[^2].Time.Value : 0.5);
        if (starts.Count == 0)
            return [beats[0].Time.Value, last];
        starts[0] = beats[0].Time.Value;
        return [.. starts, last];
    }

    private static double[] Unit(double[] vector)
    {
        var norm = Math.Sqrt(vector.Sum(x => x * x)) + 1e-9;
        return [.. vector.Select(x => x / norm)];
    }
}
