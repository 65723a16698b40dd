using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>Everything about rhythm that is read from the sound: onset curves at 100 frames a second, and the harmony.</summary>
internal sealed class RhythmCurves
{
    public const double FrameRate = 100;

    private RhythmCurves(BandFlux flux, (HarmonyCurve Whole, HarmonyCurve Bass) harmony)
    {
        All = Levelled(flux.All);
        Low = Levelled(flux.Low);
        Mid = Levelled(flux.Mid);
        High = Levelled(flux.High);
        (Harmony, Bass) = harmony;
        Onsets = Onsets.Of(All);
        (FirstSound, LastSound) = Bounds(flux.Level);
    }

    /// <summary>New sound in each frame, levelled so that its local root mean square is about 1; shape (frames).</summary>
    public float[] All { get; }

    /// <summary>Bass strings, bass drum.</summary>
    public float[] Low { get; }

    public float[] Mid { get; }

    /// <summary>Picks, cymbals, consonants.</summary>
    public float[] High { get; }

    public HarmonyCurve Harmony { get; }

    public HarmonyCurve Bass { get; }

    public Onsets Onsets { get; }

    /// <summary>The frame of the first clear onset; −1 in silence.</summary>
    public int FirstSound { get; }

    /// <summary>The frame of the last clear onset; −1 in silence.</summary>
    public int LastSound { get; }

    public int Frames => All.Length;

    public static RhythmCurves Of(Signal mono, CancellationToken cancellation)
    {
        var frames = 1 + (int)(mono.Duration.Value * FrameRate);
        return new(BandFlux.Of(mono, FrameRate, frames, cancellation), HarmonyCurve.Of(mono, cancellation));
    }

    public BeatActivation Activation()
    {
        var beat = new float[Frames];
        for (var f = 0; f < Frames; f++)
            beat[f] = MathF.Log(0.15f + All[f] + 0.3f * Low[f]);
        var smooth = Curve.Smooth(beat, 1);
        var usual = smooth.Length == 0 ? 0 : smooth.Average();
        return new(FrameRate, [.. smooth.Select(x => Math.Clamp(x - usual, -1.2f, 2.2f))]);
    }

    /// <summary>
    /// Above 0 where the bass strings sound before the treble, as in a stroke downwards, below 0 the other way round; about −1 to 1.
    /// A hand that keeps time strokes downwards on the beat and upwards between (common practice).
    /// </summary>
    public double Stroke(double time)
    {
        var frame = (int)Math.Round(time * FrameRate);
        var (low, lowMass) = Centroid(Low, frame);
        var (high, highMass) = Centroid(High, frame);
        return Math.Clamp((high - low) / 4, -1, 1) * Math.Min(1, Math.Min(lowMass, highMass) / 2);
    }

    private static (double Frame, double Mass) Centroid(float[] curve, int frame)
    {
        const int Reach = 6;
        double moment = 0, mass = 1e-6;
        for (var f = Math.Max(0, frame - Reach); f <= Math.Min(curve.Length - 1, frame + Reach); f++)
            (moment, mass) = (moment + curve[f] * (f - frame), mass + curve[f]);
        return (moment / mass, mass);
    }

    /// <summary>Levels a flux curve and moves it later by the lead of the flux.</summary>
    private static float[] Levelled(float[] flux)
    {
        var level = Curve.Level(flux, (int)(0.25 * FrameRate), (int)(4 * FrameRate));
        var lead = (int)Math.Round(BandFlux.LeadSeconds * FrameRate);
        var moved = new float[level.Length];
        for (var f = lead; f < moved.Length; f++)
            moved[f] = level[f - lead];
        return moved;
    }

    private (int First, int Last) Bounds(float[] level)
    {
        var loudest = level.Length == 0 ? 0 : level.Max();
        bool Clear(int f) => All[f] > 0.8f && level[Math.Min(f + 3, level.Length - 1)] > 0.02f * loudest;
        if (loudest < 1e-4f)
            return (-1, -1);
        var first = Array.FindIndex([.. Enumerable.Range(0, Frames)], f => Clear(f));
        var last = Array.FindLastIndex([.. Enumerable.Range(0, Frames)], f => Clear(f));
        return (first, last);
    }
}
