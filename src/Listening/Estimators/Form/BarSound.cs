using System.Collections.Immutable;
using Harkbook.Audio.Signals;
using Harkbook.Listening.Estimators.Beats;
using Harkbook.Units;

namespace Harkbook.Listening.Estimators.Form;

/// <summary>What each bar sounds like: the harmony of each of its quarters (12 pitch classes) and its tone colour, in one vector.</summary>
internal sealed class BarSound
{
    private const double WindowSeconds = 0.186;
    private const double HopSeconds = 0.1;
    private const int Parts = 4;
    private const int Classes = 12;

    private BarSound(double[] starts, double[][] harmony, double[][] colour) => (Starts, Harmony, Colour) = (starts, harmony, colour);

    /// <summary>Shape (bars + 1): where each bar starts, and where the last ends, in seconds.</summary>
    public double[] Starts { get; }

    /// <summary>Shape (bars, 48).</summary>
    public double[][] Harmony { get; }

    /// <summary>Shape (bars, bands): natural logarithms of band levels.</summary>
    public double[][] Colour { get; }

    public int Bars => Harmony.Length;

    public static BarSound Of(ISound mono, Hertz a4, ImmutableArray<HeardBeat> beats, CancellationToken cancellation)
    {
        var starts = StartsOf(beats);
        var frames = Frames(mono, a4, cancellation);
        var harmony = new double[starts.Length - 1][];
        var colour = new double[starts.Length - 1][];
        for (var bar = 0; bar < harmony.Length; bar++)
        {
            var (start, length) = (starts[bar], starts[bar + 1] - starts[bar]);
            harmony[bar] = [.. Enumerable.Range(0, Parts).SelectMany(p =>
                Unit(Mean(frames.Harmony, start + length * p / Parts, start + length * (p + 1) / Parts)))];
            colour[bar] = Mean(frames.Colour, start, start + length);
        }
        return new(starts, harmony, colour);
    }

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

    private static (double[][] Harmony, double[][] Colour) Frames(ISound mono, Hertz a4, CancellationToken cancellation)
    {
        var reader = new FrameReader(mono, WindowSeconds);
        var bank = new FilterBank(reader.BinHertz, reader.Bins, 60, Math.Min(8000, 0.45 * mono.Rate.Hertz), 2);
        var magnitudes = new float[reader.Bins];
        var bands = new float[bank.Bands];
        var count = 1 + (int)(mono.Duration.Value / HopSeconds);
        var (harmony, colour) = (new double[count][], new double[count][]);
        for (var f = 0; f < count; f++)
        {
            cancellation.ThrowIfCancellationRequested();
            reader.Read(f * HopSeconds, magnitudes);
            bank.Apply(magnitudes, bands);
            harmony[f] = PitchClasses(magnitudes, reader.BinHertz, a4);
            colour[f] = [.. bands.Select(b => Math.Log(1e-4 + b))];
        }
        return (harmony, colour);
    }

    private static double[] PitchClasses(float[] magnitudes, double binHertz, Hertz a4)
    {
        var classes = new double[Classes];
        for (var bin = (int)(75 / binHertz) + 1; bin < Math.Min(magnitudes.Length, 2000 / binHertz); bin++)
        {
            var semitones = Classes * Math.Log2(bin * binHertz / a4.Value);
            classes[((int)Math.Round(semitones) % Classes + Classes) % Classes] += magnitudes[bin] * magnitudes[bin];
        }
        return Unit([.. classes.Select(Math.Sqrt)]);
    }

    private static double[] Mean(double[][] frames, double start, double end)
    {
        var from = Math.Clamp((int)Math.Round(start / HopSeconds), 0, frames.Length - 1);
        var to = Math.Clamp((int)Math.Round(end / HopSeconds), from + 1, Math.Max(frames.Length, from + 1));
        return [.. Enumerable.Range(0, frames[0].Length).Select(i => frames[from..to].Average(f => f[i]))];
    }

    private static double[] Unit(double[] vector)
    {
        var norm = Math.Sqrt(vector.Sum(x => x * x)) + 1e-9;
        return [.. vector.Select(x => x / norm)];
    }
}
