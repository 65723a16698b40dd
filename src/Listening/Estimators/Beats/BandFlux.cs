using Harkbook.Audio.Signals;

namespace Harkbook.Listening.Estimators.Beats;

/// <summary>
/// How much new sound starts in each frame, in all and in three ranges: spectral flux with a maximum filter against vibrato
/// (Böck and Widmer, DAFx 2013) over adaptively whitened bands (D. Stowell and M. Plumbley, "Adaptive whitening for
/// improved real-time audio onset detection", ICMC 2007).
/// </summary>
internal sealed class BandFlux
{
    private const double WindowSeconds = 0.046;
    private const int Lag = 2;
    private const double LowBelow = 160;
    private const double HighFrom = 2500;
    private const float Floor = 3e-3f;

    /// <summary>Frames whose window reaches past the end: a recording that is cut off ends in a click that nobody played.</summary>
    private const int Overhang = 5;

    /// <summary>The flux of a step of sound peaks this long before the step, because the window looks ahead and the difference looks back.</summary>
    public const double LeadSeconds = 0.010;

    private BandFlux(int frames) =>
        (All, Low, Mid, High, Level) = (new float[frames], new float[frames], new float[frames], new float[frames], new float[frames]);

    public float[] All { get; }

    public float[] Low { get; }

    public float[] Mid { get; }

    public float[] High { get; }

    /// <summary>The root of the summed squares of all bands: how loud each frame is.</summary>
    public float[] Level { get; }

    public static BandFlux Of(Signal mono, double frameRate, int frames, CancellationToken cancellation)
    {
        var reader = new FrameReader(mono, WindowSeconds);
        var bank = new FilterBank(reader.BinHertz, reader.Bins, 40, Math.Min(15000, 0.45 * mono.Rate.Hertz), 18);
        var bands = ReadBands(reader, bank, frameRate, frames, cancellation);
        var flux = new BandFlux(frames);
        flux.Measure(bands, frames);
        Whiten(bands, frames, frameRate);
        flux.Fill(bands, bank.Hertz, frames);
        return flux;
    }

    private static float[][] ReadBands(FrameReader reader, FilterBank bank, double frameRate, int frames, CancellationToken cancellation)
    {
        var magnitudes = new float[reader.Bins];
        var bands = new float[frames][];
        for (var f = 0; f < frames; f++)
        {
            if (f % 256 == 0)
                cancellation.ThrowIfCancellationRequested();
            reader.Read(f / frameRate, magnitudes);
            bank.Apply(magnitudes, bands[f] = new float[bank.Bands]);
        }
        return bands;
    }

    private void Measure(float[][] bands, int frames)
    {
        for (var f = 0; f < frames; f++)
            Level[f] = MathF.Sqrt(bands[f].Sum(x => x * x));
    }

    /// <summary>Each band is divided by its own slowly falling peak; what lies far below the loudest band stays small.</summary>
    private static void Whiten(float[][] bands, int frames, double frameRate)
    {
        var count = frames == 0 ? 0 : bands[0].Length;
        var loudest = bands.Length == 0 ? 0 : bands.Max(b => b.Length == 0 ? 0 : b.Max());
        var floor = Math.Max(1e-7f, loudest * Floor);
        var fall = (float)Math.Pow(10, -1 / (8 * frameRate));
        for (var b = 0; b < count; b++)
        {
            var peak = floor;
            for (var f = 0; f < frames; f++)
            {
                peak = Math.Max(Math.Max(bands[f][b], floor), peak * fall);
                bands[f][b] = MathF.Log(1 + 20 * bands[f][b] / peak);
            }
        }
    }

    private void Fill(float[][] bands, double[] hertz, int frames)
    {
        for (var f = Lag; f < frames - Overhang; f++)
        {
            var (now, before) = (bands[f], bands[f - Lag]);
            for (var b = 0; b < now.Length; b++)
            {
                var rise = now[b] - Widest(before, b);
                if (rise > 0)
                    (hertz[b] < LowBelow ? Low : hertz[b] < HighFrom ? Mid : High)[f] += rise;
            }
            All[f] = Low[f] + Mid[f] + High[f];
        }
    }

    private static float Widest(float[] bands, int b)
    {
        var max = bands[b];
        if (b > 0)
            max = Math.Max(max, bands[b - 1]);
        return b + 1 < bands.Length ? Math.Max(max, bands[b + 1]) : max;
    }
}
